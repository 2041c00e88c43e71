// SPDX-License-Identifier: GPL-3.0-or-later
#include "materials/smooth_curve.hpp"

#include <Eigen/Core>
#include <algorithm>
#include <limits>

#include "materials/bad_material.hpp"
#include "materials/constants.hpp"
#include "materials/detail/nonnegative_least_squares.hpp"

namespace coilpull {

namespace {

using Eigen::Index;

constexpr std::size_t most_points = 400;

/// The points above zero, and J of the curve whose slopes rise up to interval `steepest` and fall from there.
struct Shape {
  Eigen::VectorXd h, j;  ///< (points), without the first, (0, 0)

  /// dJ/dH of interval i is the sum of unknowns k <= i up to the steepest, of unknowns k >= i from there on.
  /// Columns are scaled to end at the same J.
  Eigen::MatrixXd columns(Index steepest) const {
    const Index n = h.size();
    Eigen::MatrixXd a = Eigen::MatrixXd::Zero(n, n);
    for (Index k = 0; k < n; ++k) {
      double sum = 0;
      for (Index i = 0; i < n; ++i) {
        const bool counts = k <= steepest ? (i >= k && i <= steepest) : (i > steepest && i <= k);
        if (counts) sum += h[i] - (i > 0 ? h[i - 1] : 0);
        a(i, k) = sum;
      }
      a.col(k) *= j.cwiseAbs().maxCoeff() / sum;
    }
    return a;
  }

  struct Fit {
    Eigen::VectorXd j;
    double sum = std::numeric_limits<double>::infinity();
  };

  Fit fit(Index steepest) const {
    const Eigen::MatrixXd a = columns(steepest);
    Fit found;
    found.j = a * detail::nonnegative_least_squares(a, j);
    found.sum = (found.j - j).squaredNorm();
    return found;
  }
};

/// The best place of the steepest interval: looked for on a coarse grid, then between its neighbours.
Shape::Fit best_fit(const Shape& shape) {
  const Index n = shape.h.size();
  Index from = 0, to = n - 1, step = std::max<Index>(1, n / 12), at = 0;
  Shape::Fit best;
  for (;;) {
    for (Index k = from; k <= to; k += step) {
      Shape::Fit next = shape.fit(k);
      if (next.sum < best.sum) best = std::move(next), at = k;
    }
    if (step == 1) return best;
    from = std::max<Index>(0, at - step), to = std::min(n - 1, at + step);
    step = std::max<Index>(1, step / 6);
  }
}

}  // namespace

std::vector<BhCurve::Point> smoothed(const std::vector<BhCurve::Point>& points) {
  if (points.size() > most_points)
    throw BadMaterial("b_T", std::to_string(points.size()) + " points are too many to smooth: at most " +
                                 std::to_string(most_points) + "; keep every second, or fewer");
  const auto n = static_cast<Index>(points.size()) - 1;
  Shape shape{Eigen::VectorXd(n), Eigen::VectorXd(n)};
  for (Index i = 0; i < n; ++i) {
    const BhCurve::Point& point = points[static_cast<std::size_t>(i + 1)];
    shape.h[i] = point.h_A_per_m;
    shape.j[i] = point.b_T - mu0 * point.h_A_per_m;
  }
  const Shape::Fit fit = best_fit(shape);
  std::vector<BhCurve::Point> result = {{0, 0}};
  for (Index i = 0; i < n; ++i) result.push_back({shape.h[i], fit.j[i] + mu0 * shape.h[i]});
  return result;
}

}  // namespace coilpull
