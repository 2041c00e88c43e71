// SPDX-License-Identifier: GPL-3.0-or-later
#include "solver/refine/error_bar.hpp"

#include <algorithm>
#include <cmath>

namespace coilpull {
namespace {

/// Twice what is left of a difference when differences fall by this ratio.
double twice_left(double ratio) {
  const double b = std::clamp(ratio, 0.0, 0.9);
  return 2 * b / (1 - b);
}

}  // namespace

ForceBarRule force_bar_rule(double ratio, Steel steel) {
  const double left = twice_left(ratio);
  const BarRule rough = steel == Steel::yes ? BarRule{std::max(1.5, left), 0.8, 0.3, 0.7}
                                            : BarRule{std::max(0.8, left), 0.2, 0.2, 0.4};
  return {rough, {0.15 + 0.25 * left, 0.2, 0.2, 0.6}, 1.5, 0.5};
}

BarRule linkage_bar_rule(double ratio, Steel steel) {
  return {std::max(steel == Steel::yes ? 1.5 : 0.35, twice_left(ratio)), 1, 0.3, 0};
}

std::vector<double> error_bars(const OrderDifferences& rows, const BarRule& rule) {
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
    double widest = std::max(std::abs(rows.difference[i]), rule.rms * rms);
    const auto neighbour = [&](std::ptrdiff_t j) {
      if (j >= 0 && j < n && !std::isnan(rows.difference[j]))
        widest = std::max(widest, rule.neighbours * std::abs(rows.difference[j]));
    };
    neighbour(i - fast);
    neighbour(i + fast);
    if (i % fast != 0) neighbour(i - 1);
    if (i % fast != fast - 1) neighbour(i + 1);
    bars[i] = rule.safety * std::hypot(widest, rows.apart.empty() ? 0 : rule.apart * rows.apart[i]);
  }
  return bars;
}

}  // namespace coilpull
