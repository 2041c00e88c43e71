// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include <vector>

namespace coilpull::detail {

/// Slopes dy/dx of a C1 piecewise cubic through rising points (x_i, y_i), with dy/dx bounded away from zero.
///
/// Inner points: the weighted harmonic mean of both secants of Fritsch and Butland, SIAM J. Sci. Stat.
/// Comput. 5 (1984) 300, 1/d = w/D_left + (1 - w)/D_right with 1/3 < w < 2/3; ends: the parabola through
/// three points, kept within D/2 and 2 D. Then, as in Fritsch and Carlson, SIAM J. Numer. Anal. 17 (1980)
/// 238, each slope is reduced so that alpha + beta <= 2.8 in both its intervals, where alpha = d_i/D_i, beta
/// = d_(i+1)/D_i, D_i the secant.
///
/// Bound: in Bezier form the derivative over an interval has the coefficients D alpha, D (3 - alpha - beta),
/// D beta and lies between the smallest and the largest of them. The middle one is at least 0.2 D. A mean is
/// not below its smaller secant nor above three times it, hence alpha + beta < 6, the reduction is by 2.8/6
/// at most, and the outer ones are at least 2.8/6 (at the ends of the table 1.4/6) of the smaller secant
/// beside them. Everywhere, therefore: dy/dx >= 0.2 min over all intervals of D.
///
/// x, y: same size >= 2, both strictly rising.
std::vector<double> monotone_slopes(const std::vector<double>& x, const std::vector<double>& y);

/// The same for three points or more when the slope at the second is given by what stands before it: the
/// first interval is not a cubic, and the slope at the third point is reduced as above, to no less than half
/// its secant. Empty when the given slope is above 2.3 of the secant that follows: no monotone cubic is left.
std::vector<double> monotone_slopes(const std::vector<double>& x, const std::vector<double>& y,
                                    double second_slope);

}  // namespace coilpull::detail
