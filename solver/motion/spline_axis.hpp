// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include <Eigen/Core>
#include <vector>

namespace coilpull {

/// B-splines of degree 5 along one coordinate, with knots at given places and halfway between them: four
/// continuous derivatives, and two free numbers a place, so that value and slope may both be asked for there.
/// Beyond the ends every function goes on as the parabola that has its value and both derivatives at the end.
/// The functions themselves are Eigen's (unsupported/Eigen/Splines).
class SplineAxis {
public:
  static constexpr int degree = 5;

  /// The functions that are not 0 at a place, and their derivatives.
  struct Basis {
    Eigen::Index first;                                   ///< number of the first of them
    Eigen::Array<double, degree, degree + 1> derivative;  ///< (order of derivative 0 to 4, function)
  };

  /// @throws std::invalid_argument  unless there are two places at least, finite and rising strictly
  explicit SplineAxis(std::vector<double> places);

  const std::vector<double>& places() const { return places_; }
  double from() const { return places_.front(); }
  double to() const { return places_.back(); }
  bool covers(double x) const { return x >= from() && x <= to(); }
  Eigen::Index functions() const { return knots_.size() - degree - 1; }
  Basis at(double x) const;

  /// (functions, functions): sum over the intervals between places, of length h, of
  ///   h^(2 power - 1) int N_a^(derivative) N_b^(derivative) dx.
  /// With derivative = power it is the square of that difference from place to place, in the units of the
  /// function.
  Eigen::MatrixXd gram(int derivative, int power) const;

private:
  std::vector<double> places_;
  Eigen::Array<double, 1, Eigen::Dynamic> knots_;
};

}  // namespace coilpull
