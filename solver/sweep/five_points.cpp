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

Measured slope_of(const FivePoints& points, Meshes meshes) {
  const double slope = difference(points.high, points.step);
  const std::array<double, 4>& s = points.slope_elsewhere;
  const double cut_off = (s[0] - 4 * s[1] + 6 * slope - 4 * s[2] + s[3]) / 30;
  const double orders = slope - difference(points.low, points.step);
  double scatter = 0;
  if (meshes == Meshes::four) {
    std::array<double, 4> change{};
    for (std::size_t k = 0; k < 4; ++k) change[k] = points.high[k] - points.low[k];
    scatter = standard_deviation(change) * std::sqrt(2 * 1.0 + 2 * 64.0) / (12 * points.step);
  }
  return {slope, std::hypot(cut_off, orders, scatter)};
}

}  // namespace coilpull
