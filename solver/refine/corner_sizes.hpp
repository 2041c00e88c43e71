// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

namespace coilpull {

/// The error of a force falls like size^rate of the triangles at a corner.
inline constexpr double corner_rate = 1.5;

/// Of the edge length beside a corner: below, rounding of the mesh shows.
inline constexpr double least_corner = 1e-4;

}  // namespace coilpull
