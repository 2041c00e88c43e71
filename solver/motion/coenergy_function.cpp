// SPDX-License-Identifier: GPL-3.0-or-later
#include "solver/motion/coenergy_function.hpp"

#include <cmath>
#include <stdexcept>
#include <utility>

#include "materials/detail/nan.hpp"

namespace coilpull {

CoenergyFunction::CoenergyFunction(SplineAxis displacement, SplineAxis current, Eigen::MatrixXd coefficients)
    : z_(std::move(displacement)), i_(std::move(current)), coefficients_(std::move(coefficients)) {
  if (coefficients_.rows() != z_.functions() || coefficients_.cols() != i_.functions())
    throw std::invalid_argument("one coefficient a pair of splines");
}

CoenergyPoint CoenergyFunction::at(double displacement, double current_A) const {
  if (std::isnan(displacement) || std::isnan(current_A)) return {nan, nan, nan, nan, nan, nan};
  constexpr int n = SplineAxis::degree + 1;
  const SplineAxis::Basis z = z_.at(displacement), i = i_.at(current_A);
  // d(a, b): derivative a times along z and b times along i
  const Eigen::Matrix3d d = z.derivative.topRows<3>().matrix() * coefficients_.block<n, n>(z.first, i.first) *
                            i.derivative.topRows<3>().matrix().transpose();
  return {d(0, 0), d(1, 0), d(0, 1), d(2, 0), d(1, 1), d(0, 2)};
}

bool CoenergyFunction::covers(double displacement, double current_A) const {
  return z_.covers(displacement) && i_.covers(current_A);
}

}  // namespace coilpull
