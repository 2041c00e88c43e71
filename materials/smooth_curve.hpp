// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include <vector>

#include "materials/bh_curve.hpp"

namespace coilpull {

/// Points (H, B) brought into the shape of a magnetization curve by least squares in B at the same H: J = B -
/// mu0 H begins at 0 and never falls, and its slope dJ/dH first rises and then falls, once (initial curve,
/// knee, saturation). The place of the steepest slope is the one with the least sum. Slopes are sums of
/// numbers >= 0, found by the method of Lawson and Hanson, Solving Least Squares Problems (1974), chapter 23
/// (citation from memory).
/// @param points  H rises strictly from 0; at most 400
/// @returns  the same H, other B; the first point is (0, 0)
std::vector<BhCurve::Point> smoothed(const std::vector<BhCurve::Point>& points);

}  // namespace coilpull
