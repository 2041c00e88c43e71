// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include <string>

#include "apps/variants/answers.hpp"

namespace coilpull {

/// For the screen: the best under the limits for each goal, the Pareto set, what moves each goal, and what
/// the tolerances leave of the best. A difference inside the bars is called none.
std::string answers_text(const VariantsFile& file, const VariantPlan& plan, const VariantResults& results,
                         const Answers& answers);

/// A slope by a key of the device: of millimetres per tenth, what a lathe leaves: "0.021 per 0.1 mm".
std::string per_unit_text(const std::string& path, double per_unit);

/// pareto.csv: variant, what varies, goals with bars; in the order of the first goal.
std::string pareto_csv(const VariantsFile& file, const VariantPlan& plan, const VariantResults& results,
                       const Answers& answers);

/// main_effects.csv: goal, key, level, change over its range, change per unit.
std::string main_effects_csv(const VariantsFile& file, const Answers& answers);

/// tolerance_band.csv: displacement_mm, force as drawn, 5 %, 50 %, 95 % of the draws.
std::string band_csv(const std::vector<ForceBandRow>& band);

}  // namespace coilpull
