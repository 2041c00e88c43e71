// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include "apps/judgement/judge.hpp"
#include "apps/output/curves_picture.hpp"

namespace coilpull {

/// The table's force with its bars, and the person's points as dots over it, a curve a set of currents.
CurvesPicture judgement_picture(const Judgement& judgement, const ForceGrid& grid, const std::string& title);

/// Their force over the table's; a hole where the table is below a twentieth of its peak.
CurvesPicture judgement_ratio_picture(const Judgement& judgement, const ForceGrid& grid,
                                      const std::string& title);

}  // namespace coilpull
