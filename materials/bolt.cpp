// SPDX-License-Identifier: GPL-3.0-or-later
#include "materials/bolt.hpp"

#include <cmath>

#include "materials/bad_material.hpp"
#include "materials/constants.hpp"
#include "materials/detail/require_number.hpp"

namespace coilpull {

double threaded_rod_diameter(double diameter_m, double pitch_m) {
  detail::require_above(0, "diameter", diameter_m);
  detail::require_above(0, "pitch", pitch_m);
  detail::require_at_most(0.5 * diameter_m, "pitch", pitch_m,
                          "no thread is that coarse; are both in the same unit?");
  const double d = diameter_m, d1 = d - 5 * std::sqrt(3.0) / 8 * pitch_m;
  return std::sqrt(d * d / 8 + d1 * d1 / 4 + 5.0 / 8 * (d * d + d * d1 + d1 * d1) / 3);
}

double hexagon_head_diameter(double across_flats_m) {
  return std::sqrt(2 * std::sqrt(3.0) / pi) * detail::require_above(0, "across_flats", across_flats_m);
}

}  // namespace coilpull
