// SPDX-License-Identifier: GPL-3.0-or-later
#include "solver/fem/quadrature.hpp"

#include <Eigen/Eigenvalues>
#include <cmath>

namespace coilpull::detail {

LineRule gauss_rule(int n, int alpha) {
  // Recurrence of the Jacobi polynomials P^(alpha,0) on [-1, 1]; diagonal a_k, off-diagonal sqrt(b_k).
  const double a = alpha;
  Eigen::VectorXd diagonal(n), off(n > 1 ? n - 1 : 0);
  for (int k = 0; k < n; ++k) {
    const double s = 2.0 * k + a;
    diagonal[k] = k == 0 ? -a / (a + 2) : -a * a / (s * (s + 2));
    if (k == 0) continue;
    off[k - 1] = std::sqrt(4.0 * k * k * (k + a) * (k + a) / (s * s * (s + 1) * (s - 1)));
  }
  Eigen::SelfAdjointEigenSolver<Eigen::MatrixXd> eigen;
  eigen.computeFromTridiagonal(diagonal, off);
  const double total = 1 / (a + 1);  // int_0^1 (1-x)^alpha dx
  LineRule rule;
  rule.points = 0.5 * (eigen.eigenvalues().array() + 1);
  rule.weights = total * eigen.eigenvectors().row(0).transpose().array().square();
  return rule;
}

TriangleRule triangle_rule(int n) {
  // xi = s, eta = t (1 - s): d(xi, eta) = (1 - s) ds dt.
  const LineRule s = gauss_rule(n, 1), t = gauss_rule(n, 0);
  TriangleRule rule{Eigen::Matrix2Xd(2, n * n), Eigen::VectorXd(n * n)};
  for (int i = 0; i < n; ++i)
    for (int j = 0; j < n; ++j) {
      rule.points.col(i * n + j) << s.points[i], t.points[j] * (1 - s.points[i]);
      rule.weights[i * n + j] = s.weights[i] * t.weights[j];
    }
  return rule;
}

}  // namespace coilpull::detail
