// SPDX-License-Identifier: GPL-3.0-or-later
#include "solver/motion/spline_axis.hpp"

#include <algorithm>
#include <cmath>
#include <stdexcept>
#include <unsupported/Eigen/Splines>

#include "solver/closed_form/detail/gauss_points.hpp"

namespace coilpull {
namespace {

using Spline = Eigen::Spline<double, 1, SplineAxis::degree>;

void check(const std::vector<double>& places) {
  if (places.size() < 2) throw std::invalid_argument("a spline needs two places at least");
  for (std::size_t i = 0; i < places.size(); ++i)
    if (!std::isfinite(places[i]) || (i > 0 && !(places[i] > places[i - 1])))
      throw std::invalid_argument("the places of a spline are finite and rise strictly");
}

}  // namespace

SplineAxis::SplineAxis(std::vector<double> places) : places_(std::move(places)) {
  check(places_);
  std::vector<double> knots(degree + 1, from());
  for (std::size_t i = 1; i < places_.size(); ++i) {
    if (i > 1) knots.push_back(places_[i - 1]);
    knots.push_back((places_[i - 1] + places_[i]) / 2);
  }
  knots.insert(knots.end(), degree + 1, to());
  knots_ = Eigen::Map<const Eigen::Array<double, 1, Eigen::Dynamic>>(knots.data(),
                                                                     static_cast<Eigen::Index>(knots.size()));
}

SplineAxis::Basis SplineAxis::at(double x) const {
  const double inside = std::clamp(x, from(), to());
  Basis basis;
  basis.first = Spline::Span(inside, degree, knots_) - degree;
  basis.derivative = Spline::BasisFunctionDerivatives(inside, degree - 1, degree, knots_);
  if (const double past = x - inside; past != 0) {
    auto& d = basis.derivative;
    d.row(0) += past * d.row(1) + past * past / 2 * d.row(2);
    d.row(1) += past * d.row(2);
    d.row(3) = d.row(4) = 0;
  }
  return basis;
}

Eigen::MatrixXd SplineAxis::gram(int derivative, int power) const {
  Eigen::MatrixXd sum = Eigen::MatrixXd::Zero(functions(), functions());
  const detail::GaussPoints& rule = detail::gauss_points();  // exact up to degree 19; asked are 10 at most
  for (std::size_t i = 1; i < places_.size(); ++i) {
    const double h = places_[i] - places_[i - 1], scale = std::pow(h, 2 * power - 1);
    for (const double start : {places_[i - 1], (places_[i - 1] + places_[i]) / 2})
      for (std::size_t q = 0; q < rule.at.size(); ++q) {
        const Basis basis = at(start + h / 4 * (1 + rule.at[q]));
        const auto values = basis.derivative.row(derivative).matrix();
        sum.block<degree + 1, degree + 1>(basis.first, basis.first) +=
            scale * rule.weight[q] * h / 4 * values.transpose() * values;
      }
  }
  return sum;
}

}  // namespace coilpull
