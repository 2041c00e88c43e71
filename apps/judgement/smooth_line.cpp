// SPDX-License-Identifier: GPL-3.0-or-later
#include "apps/judgement/smooth_line.hpp"

#include <algorithm>
#include <boost/math/interpolators/cubic_hermite.hpp>
#include <cmath>

namespace coilpull {
namespace {

constexpr double same_node = 1e-9;  // of the larger end

/// At each node that of the parabola through it and its neighbours; at the ends the last parabola's.
std::vector<double> slopes_at_nodes(const std::vector<double>& x, const std::vector<double>& y) {
  const std::size_t last = x.size() - 1;
  std::vector<double> secants, slopes(x.size());
  for (std::size_t i = 0; i < last; ++i) secants.push_back((y[i + 1] - y[i]) / (x[i + 1] - x[i]));
  if (last == 1) return {secants[0], secants[0]};
  for (std::size_t i = 1; i < last; ++i)
    slopes[i] = ((x[i + 1] - x[i]) * secants[i - 1] + (x[i] - x[i - 1]) * secants[i]) / (x[i + 1] - x[i - 1]);
  slopes[0] = 2 * secants[0] - slopes[1];
  slopes[last] = 2 * secants[last - 1] - slopes[last - 1];
  return slopes;
}

double interpolated(std::vector<double> x, std::vector<double> y, double at) {
  std::vector<double> slopes = slopes_at_nodes(x, y);
  return boost::math::interpolators::cubic_hermite<std::vector<double>>(std::move(x), std::move(y),
                                                                        std::move(slopes))(at);
}

double miss_without(std::size_t node, std::vector<double> x, std::vector<double> y) {
  const double at = x[node], truth = y[node];
  x.erase(x.begin() + static_cast<std::ptrdiff_t>(node));
  y.erase(y.begin() + static_cast<std::ptrdiff_t>(node));
  return std::abs(interpolated(std::move(x), std::move(y), at) - truth);
}

}  // namespace

SmoothLine::SmoothLine(std::vector<double> x, std::vector<double> y) : x_(std::move(x)), y_(std::move(y)) {}

std::optional<SmoothLine::Cell> SmoothLine::cell_of(double x) const {
  const double close = same_node * std::max(std::abs(x_.front()), std::abs(x_.back()));
  const auto near =
      std::find_if(x_.begin(), x_.end(), [&](double node) { return std::abs(node - x) <= close; });
  if (near != x_.end()) return Cell{static_cast<std::size_t>(near - x_.begin()), true};
  if (!(x > x_.front() && x < x_.back())) return std::nullopt;
  return Cell{static_cast<std::size_t>(std::upper_bound(x_.begin(), x_.end(), x) - x_.begin()) - 1, false};
}

std::optional<Measured> SmoothLine::at(double x) const {
  const std::optional<Cell> cell = cell_of(x);
  if (!cell) return std::nullopt;
  if (cell->is_node) return Measured{y_[cell->below], 0};
  if (x_.size() < 3) return std::nullopt;
  double miss = 0;
  for (std::size_t node = std::max<std::size_t>(cell->below, 2) - 1; node <= cell->below + 2; ++node)
    if (node + 1 < x_.size()) miss = std::max(miss, miss_without(node, x_, y_));
  return Measured{interpolated(x_, y_, x), miss};
}

}  // namespace coilpull
