// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include "meshing/point.hpp"

namespace coilpull::detail {

/// Which way a -> b -> c turns: 1 counter-clockwise, -1 clockwise, 0 on one line. Exact for finite doubles
/// (no overflow or underflow of products): a rounding-error filter, then expansions of doubles.
/// Shewchuk, Adaptive precision floating-point arithmetic and fast robust geometric predicates,
/// Discrete Comput. Geom. 18 (1997) 305, sections 2 and 4.1.
int orientation(Point a, Point b, Point c);

}  // namespace coilpull::detail
