// SPDX-License-Identifier: GPL-3.0-or-later
#include "solver/refine/error_bar.hpp"

#include <algorithm>
#include <cmath>

namespace coilpull {

double safety_for(double ratio, Steel steel) {
  const double b = std::clamp(ratio, 0.0, 0.9);
  return steel == Steel::yes ? std::max(1.5, 2 * b / (1 - b)) : std::max(0.5, 4 * b / (1 - b));
}

std::vector<double> error_bars(const OrderDifferences& rows, double safety) {
  const std::ptrdiff_t n = static_cast<std::ptrdiff_t>(rows.difference.size());
  const std::ptrdiff_t fast = static_cast<std::ptrdiff_t>(rows.per_displacement);
  double squares = 0;
  int usable = 0;
  for (const double d : rows.difference)
    if (!std::isnan(d)) squares += d * d, ++usable;
  const double rms = usable > 0 ? std::sqrt(squares / usable) : 0;

  std::vector<double> bars(rows.difference.size());
  for (std::ptrdiff_t i = 0; i < n; ++i) {
    if (std::isnan(rows.difference[i])) {
      bars[i] = rows.difference[i];
      continue;
    }
    const double by_feature = rows.by_feature.empty() ? 0 : rows.by_feature[i];
    double widest = std::max({std::abs(rows.difference[i]), 0.3 * rms, 0.7 * by_feature});
    const auto neighbour = [&](std::ptrdiff_t j) {
      if (j >= 0 && j < n && !std::isnan(rows.difference[j]))
        widest = std::max(widest, std::abs(rows.difference[j]));
    };
    neighbour(i - fast);
    neighbour(i + fast);
    if (i % fast != 0) neighbour(i - 1);
    if (i % fast != fast - 1) neighbour(i + 1);
    bars[i] = std::max(safety * widest, rows.floor);
  }
  return bars;
}

}  // namespace coilpull
