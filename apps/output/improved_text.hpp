// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include <cstddef>
#include <string>
#include <vector>

#include "apps/variants/improve.hpp"
#include "apps/variants/ranges.hpp"

namespace coilpull {

/// Slopes of the first goal at its best design.
struct BestSlopes {
  std::size_t number = 0;  ///< of the variant
  std::vector<NumberRange> ranges = {};
  std::vector<double> per_unit = {};  ///< one each; NaN: not told by the adjoint
};

/// Ranked by what a range's number moves the goal by: per 0.1 mm, else per 1. Empty where nothing is told.
std::string slopes_text(const VariantsFile& file, const BestSlopes& slopes);

/// The one with the most of the first goal; the list is not empty.
std::size_t best_of(const VariantsFile& file, const std::vector<Improvement>& all);

/// What became of each start, and which numbers it took; empty for none.
std::string improved_text(const VariantsFile& file, const VariantPlan& plan, const VariantResults& results,
                          const std::vector<Improvement>& all);

/// improved.csv: a row a start: its number, what varies as it is now, every goal with its bar, tables asked
/// for, why it ended.
std::string improved_csv(const VariantsFile& file, const VariantPlan& plan,
                         const std::vector<Improvement>& all);

}  // namespace coilpull
