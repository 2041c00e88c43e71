// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include <string>

#include "apps/device_file/table.hpp"
#include "meshing/outline.hpp"

namespace coilpull {

/// profile = [ { r_mm = 0, z_mm = 0 }, { r_mm = 5, z_mm = 0, fillet_mm = 0.5 }, ... ]
///
/// The points of a section in the order in which a pencil runs once round it, either way; the last is joined
/// to the first. A diameter_mm may stand for r_mm. Messages count points from 1: profile[3] is the third.
/// The edge that leads to a point is straight, or an arc; one given by its radius has at most half a turn and
/// is told apart by what the hand feels, not by signs:
///     convex_radius_mm  = 4        the body bulges out by an arc of this radius (convex_diameter_mm as well)
///     concave_radius_mm = 4        a hollow of this radius is taken out of the body
///     through_r_mm, through_z_mm   an arc of any length through this point
///     centre_r_mm, centre_z_mm     the shorter arc about this point
/// and chamfer_mm (length cut off each of the two edges) or fillet_mm (radius) cuts the corner at a point
/// between straight edges. A fillet where an edge meets the axis rounds the tip.
/// @throws BadDevice  also when the outline crosses or touches itself: which edges
Outline read_profile(const Value& value, const SourceText& text, const std::string& example);

}  // namespace coilpull
