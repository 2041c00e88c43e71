// SPDX-License-Identifier: GPL-3.0-or-later
#include "solver/refine/error_bar.hpp"

#include <algorithm>
#include <cmath>

namespace coilpull {

BarRule rule_for(double ratio, Steel steel) {
  const double b = std::clamp(ratio, 0.0, 0.9), left = 2 * b / (1 - b);
  return steel == Steel::yes ? BarRule{std::max(1.5, left), 0.5, 0.3, 0.7}
                             : BarRule{std::max(0.65, left), 0.2, 0.2, 0.5};
}

std::vector<double> error_bars(const OrderDifferences& rows, const BarRule& rule) {
  const std::ptrdiff_t n = static_cast<std::ptrdiff_t>(rows.difference.size());
  const std::ptrdiff_t fast = static_cast<std::ptrdiff_t>(rows.per_displacement);
  double squares = 0;
  int usable = 0;
  for (const double d : rows.difference)
    if (!std::isnan(d)) squares += d * d, ++usable;
  const double rms = usable > 0 ? std::sqrt(squares / usable) : 0;

  const bool features = !rows.by_feature.empty();
  const double neighbours = features ? rule.neighbours : 1;
  std::vector<double> bars(rows.difference.size());
  for (std::ptrdiff_t i = 0; i < n; ++i) {
    if (std::isnan(rows.difference[i])) {
      bars[i] = rows.difference[i];
      continue;
    }
    double widest = std::max(std::abs(rows.difference[i]), rule.rms * rms);
    const auto neighbour = [&](std::ptrdiff_t j) {
      if (j >= 0 && j < n && !std::isnan(rows.difference[j]))
        widest = std::max(widest, neighbours * std::abs(rows.difference[j]));
    };
    neighbour(i - fast);
    neighbour(i + fast);
    if (i % fast != 0) neighbour(i - 1);
    if (i % fast != fast - 1) neighbour(i + 1);
    const double by_feature = features ? rule.by_feature * rows.by_feature[i] : 0;
    bars[i] = std::max(rule.safety * std::hypot(widest, by_feature), rows.floor);
  }
  return bars;
}

}  // namespace coilpull
