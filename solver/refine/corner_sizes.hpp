// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

namespace coilpull {

/// The error of a force falls like size^rate of the triangles at a corner, as its field's energy there: 4/3
/// where steel far more permeable than air has a right angle (H ~ r^(-1/3); Jackson, Classical
/// Electrodynamics, section 2.11, from memory), near 2 at a magnet's edge (H ~ ln r). One figure between, for
/// plans alone: bars are estimated.
inline constexpr double corner_rate = 1.5;

/// Of the edge length beside a corner: below, rounding of the mesh shows.
inline constexpr double least_corner = 1e-4;

}  // namespace coilpull
