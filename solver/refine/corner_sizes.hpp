// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

namespace coilpull {

inline constexpr double corner_rate =
    1.5;  ///< the error of a force falls like size^rate of the triangles at a corner
inline constexpr double least_corner =
    1e-4;  ///< of the edge length beside it: below, rounding of the mesh shows

}  // namespace coilpull
