// SPDX-License-Identifier: GPL-3.0-or-later
#include "materials/detail/nonnegative_least_squares.hpp"

#include <Eigen/QR>
#include <limits>
#include <vector>

namespace coilpull::detail {

namespace {

using Eigen::Index;

/// Least squares over the free unknowns alone; the others are 0.
Eigen::VectorXd solve_free(const Eigen::MatrixXd& a, const Eigen::VectorXd& b,
                           const std::vector<char>& is_free) {
  std::vector<Index> free;
  for (Index k = 0; k < a.cols(); ++k)
    if (is_free[static_cast<std::size_t>(k)]) free.push_back(k);
  Eigen::MatrixXd of_free(a.rows(), static_cast<Index>(free.size()));
  for (std::size_t k = 0; k < free.size(); ++k) of_free.col(static_cast<Index>(k)) = a.col(free[k]);
  const Eigen::VectorXd some = of_free.colPivHouseholderQr().solve(b);
  Eigen::VectorXd x = Eigen::VectorXd::Zero(a.cols());
  for (std::size_t k = 0; k < free.size(); ++k) x[free[k]] = some[static_cast<Index>(k)];
  return x;
}

}  // namespace

Eigen::VectorXd nonnegative_least_squares(const Eigen::MatrixXd& a, const Eigen::VectorXd& b) {
  const auto n = static_cast<std::size_t>(a.cols());
  const double worth = 1e-12 * a.norm() * b.norm();  // a gradient above it is worth freeing an unknown
  std::vector<char> is_free(n, false);
  Eigen::VectorXd x = Eigen::VectorXd::Zero(a.cols());
  for (std::size_t round = 0; round < 3 * n; ++round) {
    const Eigen::VectorXd gradient = a.transpose() * (b - a * x);
    Index best = -1;
    for (Index k = 0; k < a.cols(); ++k)
      if (!is_free[static_cast<std::size_t>(k)] && gradient[k] > worth &&
          (best < 0 || gradient[k] > gradient[best]))
        best = k;
    if (best < 0) break;
    is_free[static_cast<std::size_t>(best)] = true;
    for (;;) {  // walk towards the free minimum until an unknown meets 0
      const Eigen::VectorXd goal = solve_free(a, b, is_free);
      double step = 1;
      for (Index k = 0; k < a.cols(); ++k)
        if (is_free[static_cast<std::size_t>(k)] && goal[k] <= 0)
          step = std::min(step, x[k] / (x[k] - goal[k]));
      const bool arrived = step >= 1;
      x += std::max(step, 0.0) * (goal - x);
      if (arrived) break;
      for (Index k = 0; k < a.cols(); ++k)
        if (is_free[static_cast<std::size_t>(k)] && x[k] <= 1e-15 * x.maxCoeff())
          x[k] = 0, is_free[static_cast<std::size_t>(k)] = false;
    }
  }
  return x;
}

}  // namespace coilpull::detail
