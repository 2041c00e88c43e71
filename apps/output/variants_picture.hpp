// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include <string>
#include <vector>

#include "apps/output/curves_picture.hpp"
#include "apps/variants/answers.hpp"

namespace coilpull {

/// Every design by its first two goals, those inside the limits darker, and the Pareto set as a line through
/// its members. Needs two goals.
CurvesPicture goals_picture(const VariantsFile& file, const VariantPlan& plan, const VariantResults& results,
                            const Answers& answers);

/// The force along the stroke as drawn, in the band that holds nine of ten draws.
CurvesPicture band_picture(const std::vector<ForceBandRow>& band, const std::string& title);

}  // namespace coilpull
