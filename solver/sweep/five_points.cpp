// SPDX-License-Identifier: GPL-3.0-or-later
#include "solver/sweep/five_points.hpp"

#include <cmath>

namespace coilpull {
namespace {

double difference(const std::array<double, 4>& e, double step) {
  return (e[0] - e[3] + 8 * (e[2] - e[1])) / (12 * step);
}

double standard_deviation(const std::array<double, 4>& values) {
  double mean = 0, squares = 0;
  for (const double value : values) mean += value / 4;
  for (const double value : values) squares += (value - mean) * (value - mean);
  return std::sqrt(squares / 3);
}

}  // namespace

Measured slope_of(const FivePoints& points, double of_orders) {
  const double slope = difference(points.energy, points.step);
  const std::array<double, 4>& s = points.slope_elsewhere;
  const double of_step = (s[0] - 4 * s[1] + 6 * slope - 4 * s[2] + s[3]) / 30;
  return {slope, std::hypot(of_step, of_orders)};
}

double order_error(const std::array<double, 4>& change, double step) {
  const double scatter = standard_deviation(change) * std::sqrt(2 * 1.0 + 2 * 64.0) / (12 * step);
  return std::hypot(difference(change, step), scatter);
}

}  // namespace coilpull
