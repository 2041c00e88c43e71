// SPDX-License-Identifier: GPL-3.0-or-later
#include "solver/measure/saturation.hpp"

#include <cmath>

namespace coilpull {

double flux_density_percentile(const Field& field, const VolumeSampler& region, double fraction) {
  const auto size = [](double b_r, double b_z) { return std::sqrt(b_r * b_r + b_z * b_z); };
  return percentile(region.of(field, size), fraction);
}

double flux_density_percentile(const Field& field, int region, double fraction) {
  return flux_density_percentile(field, VolumeSampler(*field.space, region), fraction);
}

}  // namespace coilpull
