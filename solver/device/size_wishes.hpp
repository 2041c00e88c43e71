// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include <vector>

#include "meshing/section.hpp"
#include "solver/device/section_at.hpp"

namespace coilpull {

/// A corner of steel or magnet, where the field has no bounded derivatives.
struct Corner {
  std::size_t part, edge;  ///< where this edge of the part's outline starts
  Point at;
  double opening;  ///< angle between the faces inside the body [rad], at most pi
  double size;     ///< wanted edge length there [m]
};

/// The corners of the parts' outlines in their order. Windings have none: theirs leave the field smooth.
std::vector<Corner> corners_of(const Device& device, const std::vector<Region>& parts,
                               const Resolution& resolution);

/// Wanted edge lengths for the parts at one displacement: graded to every corner of steel and magnet (where
/// the field has no bounded derivatives), fine in gaps, coarse in air. Nothing at the axis counts as an edge.
SizeField size_wishes(const Device& device, const std::vector<Region>& parts, const HalfCircle& outer,
                      double displacement, const Resolution& resolution);

}  // namespace coilpull
