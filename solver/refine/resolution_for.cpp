// SPDX-License-Identifier: GPL-3.0-or-later
#include "solver/refine/resolution_for.hpp"

#include <algorithm>
#include <cmath>

#include "solver/refine/corner_sizes.hpp"

namespace coilpull {
namespace {

constexpr double smooth_rate = 6;
constexpr double finest =
    3;  // ten times the triangles: time and memory stay bounded, what is not met is marked

Resolution scaled(Resolution resolution, double error_ratio) {
  resolution.at_corner =
      std::clamp(resolution.at_corner * std::pow(error_ratio, 1 / corner_rate), least_corner, 0.5);
  resolution.fineness =
      std::clamp(resolution.fineness * std::pow(error_ratio, -1 / smooth_rate), 0.7, finest);
  return resolution;
}

}  // namespace

Resolution resolution_for(double tolerance) {
  constexpr double met_by_default = 1e-3;
  return scaled(Resolution{}, tolerance / met_by_default);
}

Resolution finer(const Resolution& resolution, double too_wide) {
  constexpr double aim = 0.6,
                   most = 0.02;  // aim below the tolerance; trust the rates no further than fifty times
  return scaled(resolution, std::max(aim / too_wide, most));
}

}  // namespace coilpull
