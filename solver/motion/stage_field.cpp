// SPDX-License-Identifier: GPL-3.0-or-later
#include "solver/motion/stage_field.hpp"

#include <algorithm>
#include <cmath>

namespace coilpull {
namespace {

double fade_length(const SplineAxis& z) { return (z.to() - z.from()) / 40; }

/// How far beyond the range, with its sign.
double beyond_range(const SplineAxis& z, double displacement) {
  return displacement - std::clamp(displacement, z.from(), z.to());
}

}  // namespace

CoenergyPoint stage_field(const CoenergyFunction& function, double displacement, double current_A) {
  const SplineAxis& z = function.displacement();
  const double d = beyond_range(z, displacement);
  if (d == 0) return function.at(displacement, current_A);
  const double s = fade_length(z), shift = std::tanh(d / s), slope = 1 - shift * shift;
  CoenergyPoint at = function.at(displacement - d + s * shift, current_A);
  at.force_slope = at.force_slope * slope * slope - at.force_N * 2 * shift * slope / s;
  at.force_N *= slope;
  at.force_per_ampere *= slope;
  return at;
}

bool out_of_reach(const CoenergyFunction& function, double displacement) {
  const SplineAxis& z = function.displacement();
  return std::abs(beyond_range(z, displacement)) > 20 * fade_length(z);
}

}  // namespace coilpull
