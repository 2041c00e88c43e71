// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include <Eigen/Core>

namespace coilpull::detail {

/// Points and weights on the unit interval [0, 1].
struct LineRule {
  Eigen::VectorXd points;
  Eigen::VectorXd weights;
};

/// Points (column = (xi, eta)) and positive weights on the triangle (0,0), (1,0), (0,1); weights sum to 1/2.
struct TriangleRule {
  Eigen::Matrix2Xd points;
  Eigen::VectorXd weights;
};

/// Gauss rule of n points for int_0^1 (1-x)^alpha f(x) dx with alpha = 0 or 1, exact up to degree 2n-1.
/// Eigenvalues of the Jacobi matrix: Golub and Welsch, Math. Comp. 23 (1969) 221.
LineRule gauss_rule(int n, int alpha = 0);

/// Product of two Gauss rules on the square collapsed onto the triangle: n^2 points inside, exact up to
/// degree 2n-1.  Stroud, Approximate Calculation of Multiple Integrals, 1971, sec. 2.4.
TriangleRule triangle_rule(int n);

}  // namespace coilpull::detail
