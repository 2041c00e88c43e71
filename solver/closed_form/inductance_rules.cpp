// SPDX-License-Identifier: GPL-3.0-or-later
#include "solver/closed_form/inductance_rules.hpp"

#include <cmath>

#include "materials/constants.hpp"

namespace coilpull {

namespace {
constexpr double microhenry_per_inch = 1e-6 / 0.0254;  // [H/m]
}

double wheeler_single_layer(double radius_m, double length_m, double turns) {
  return microhenry_per_inch * turns * turns * radius_m * radius_m / (9 * radius_m + 10 * length_m);
}

double wheeler_any_length(double radius_m, double length_m, double turns) {
  const double slender = length_m / radius_m;
  return mu0 * turns * turns * radius_m *
         (std::log(1 + pi / slender) + 1 / (2.3 + slender * (1.6 + 0.44 * slender)));
}

double wheeler_many_layers(double mean_radius_m, double length_m, double depth_m, double turns) {
  return 0.8 * microhenry_per_inch * turns * turns * mean_radius_m * mean_radius_m /
         (6 * mean_radius_m + 9 * length_m + 10 * depth_m);
}

}  // namespace coilpull
