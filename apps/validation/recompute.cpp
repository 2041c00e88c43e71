// SPDX-License-Identifier: GPL-3.0-or-later
#include "apps/validation/recompute.hpp"

#include <algorithm>
#include <cmath>

#include "solver/sweep/sweep.hpp"

namespace coilpull {
namespace {

Resolution finer_by_a_quarter(Resolution resolution) {
  resolution.fineness *= 1.25;
  return resolution;
}

}  // namespace

BarredPath::BarredPath(int order, const Resolution& resolution)
    : low_(order, resolution),
      high_(order + 1, resolution),
      other_(order + 1, finer_by_a_quarter(resolution)) {}

std::vector<Measured> BarredPath::values(const Device& device, double displacement,
                                         const std::vector<std::vector<double>>& currents_A,
                                         const Quantities& quantities) {
  const std::vector<double> low = quantities(low_.solve(device, displacement, currents_A));
  const std::vector<double> high = quantities(high_.solve(device, displacement, currents_A));
  const std::vector<double> best = quantities(other_.solve(device, displacement, currents_A));
  std::vector<Measured> all;
  double squares = 0;
  for (std::size_t i = 0; i < best.size(); ++i) {
    const double bar = std::max(1.5 * std::abs(high[i] - low[i]), std::abs(best[i] - high[i]));
    all.push_back({best[i], bar});
    if (best[i] != 0) squares += std::pow(bar / best[i], 2);
  }
  const double usual = 0.3 * std::sqrt(squares / static_cast<double>(std::max<std::size_t>(1, all.size())));
  for (Measured& one : all) one.error = std::max(one.error, usual * std::abs(one.value));
  return all;
}

void level_bars(std::vector<Measured>& family) {
  double squares = 0;
  for (const Measured& one : family) squares += one.error * one.error;
  const double usual =
      0.3 * std::sqrt(squares / static_cast<double>(std::max<std::size_t>(1, family.size())));
  for (Measured& one : family) one.error = std::max(one.error, usual);
}

ForceTable swept(Device device, const std::vector<double>& displacements,
                 const std::vector<std::vector<double>>& currents_A, double tolerance) {
  device.displacements = displacements;
  device.currents_A = currents_A;
  device.tolerance = tolerance;
  SweepOptions options;
  options.threads = 1;
  return sweep(device, options);
}

}  // namespace coilpull
