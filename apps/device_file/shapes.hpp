// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include "apps/device_file/table.hpp"
#include "meshing/outline.hpp"

namespace coilpull {

/// The section of a part, and the key it was read from.
struct Shape {
  Outline outline;
  Value value;
};

/// The one shape of a part. Every length in _mm, _m or _in; from, to, centre: places on the axis, z;
/// centre and length may stand for from and to, a diameter for a radius:
///     cylinder = { radius_mm, from_mm, to_mm }
///     tube     = { inner_radius_mm, outer_radius_mm, from_mm, to_mm }
///     cone     = { from_radius_mm, to_radius_mm, from_mm, to_mm }    a tip has radius 0; a bore is straight:
///                                                                   inner_radius_mm
///     ball     = { radius_mm, centre_mm }
///     profile  = [ { r_mm, z_mm }, ... ]                             see read_profile()
/// Corners of the first three: chamfer_mm (length cut off each edge) or fillet_mm (radius) for all that lie
/// off the axis; chamfer_from_outer_mm, fillet_to_inner_mm, ... for one, which 0 leaves sharp.
/// @throws BadDevice  when there is none or more than one, or its numbers describe no body
Shape read_shape(const Table& part);

}  // namespace coilpull
