// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include <optional>
#include <string>
#include <vector>

#include "apps/variants/plan.hpp"
#include "apps/variants/variant_store.hpp"

namespace coilpull {

/// variants.csv: RFC 4180, a row a variant in the order of the plan: number, design, what varies (by key
/// path), every figure and, for those that have one, its bar, then status. What is not known reads "NaN"; a
/// variant that is not solved yet has the status "due". Nothing in it depends on when or by how many it was
/// solved.
/// @param results  one per variant of the plan
std::string variants_csv(const VariantPlan& plan, const std::vector<std::optional<VariantResult>>& results);

/// A TOML value as people write it in a cell or a sentence: texts without their quotes.
std::string plain_value(const std::string& toml);

}  // namespace coilpull
