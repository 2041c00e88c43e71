// SPDX-License-Identifier: GPL-3.0-or-later
#include "materials/detail/monotone_cubic.hpp"

#include <algorithm>

namespace coilpull::detail {

namespace {

constexpr double largest_sum = 2.8;  // alpha + beta <= largest_sum < 3

/// Slope at the outer point of a parabola through three points; secant and width nearest to the end come
/// first.
double end_slope(double near_secant, double near_width, double far_secant, double far_width) {
  const double slope = near_secant + (near_secant - far_secant) * near_width / (near_width + far_width);
  return std::clamp(slope, 0.5 * near_secant, 2 * near_secant);
}

}  // namespace

std::vector<double> monotone_slopes(const std::vector<double>& x, const std::vector<double>& y) {
  const std::size_t n = x.size() - 1;  // intervals
  std::vector<double> width(n), secant(n), d(n + 1), reduce(n + 1, 1.0);
  for (std::size_t i = 0; i < n; ++i) {
    width[i] = x[i + 1] - x[i];
    secant[i] = (y[i + 1] - y[i]) / width[i];
  }
  if (n == 1) return {secant[0], secant[0]};

  for (std::size_t i = 1; i < n; ++i) {
    const double w = (1 + width[i] / (width[i - 1] + width[i])) / 3;
    d[i] = 1 / (w / secant[i - 1] + (1 - w) / secant[i]);
  }
  d[0] = end_slope(secant[0], width[0], secant[1], width[1]);
  d[n] = end_slope(secant[n - 1], width[n - 1], secant[n - 2], width[n - 2]);

  for (std::size_t i = 0; i < n; ++i) {
    const double factor = largest_sum * secant[i] / (d[i] + d[i + 1]);
    reduce[i] = std::min(reduce[i], factor);
    reduce[i + 1] = std::min(reduce[i + 1], factor);
  }
  for (std::size_t i = 0; i <= n; ++i) d[i] *= reduce[i];
  return d;
}

std::vector<double> monotone_slopes(const std::vector<double>& x, const std::vector<double>& y,
                                    double second_slope) {
  const double secant = (y[2] - y[1]) / (x[2] - x[1]);
  if (second_slope > (largest_sum - 0.5) * secant) return {};
  std::vector<double> d = monotone_slopes(x, y);
  d[1] = second_slope;
  d[2] = std::min(d[2], largest_sum * secant - second_slope);
  return d;
}

}  // namespace coilpull::detail
