// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include <vector>

#include "meshing/section.hpp"
#include "solver/device/section_at.hpp"

namespace coilpull {

/// Wanted edge lengths for the parts at one displacement: graded to every corner of steel and magnet (where
/// the field has no bounded derivatives), fine in gaps, coarse in air. Nothing at the axis counts as an edge.
SizeField size_wishes(const Device& device, const std::vector<Region>& parts, const HalfCircle& outer,
                      double displacement, const Resolution& resolution);

}  // namespace coilpull
