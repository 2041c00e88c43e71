// SPDX-License-Identifier: GPL-3.0-or-later
// Figures: data/published/axial_forces.csv, case I. The outside field of an evenly magnetised ball is a point
// dipole's, so that its force is m dB/dz in any field, and between two balls 3 mu0 m1 m2 / (2 pi d^4).
#include <algorithm>
#include <cmath>
#include <cstdlib>

#include "apps/validation/balls.hpp"
#include "apps/validation/fe_path.hpp"
#include "materials/constants.hpp"
#include "tests/near.hpp"
#include "tests/published/rings.hpp"
#include "tests/read_csv.hpp"

using namespace coilpull;

namespace {

double moment(double radius, double remanence_T) {
  return 4 * pi / 3 * std::pow(radius, 3) * remanence_T / mu0;
}

/// dB_z/dz on the axis at height z over a ring of 1 A: -3/2 mu0 a^2 z / (a^2 + z^2)^(5/2).
double axis_slope(double a, double z) { return -1.5 * mu0 * a * a * z / std::pow(a * a + z * z, 2.5); }

}  // namespace

TEST_CASE("a magnetised ball over a ring is pulled by m dB/dz") {
  const CsvFile table = read_csv("data/published/axial_forces.csv");
  const double radius = 5e-3, ring = 20e-3, half = 0.5e-3, amperes = 1000;
  FePath path(4, {2.5});
  const MeanRule rule = mean_rule(4);
  double peak = 0;
  for (std::size_t i = 0; i < table.records.size(); ++i)
    if (table.text_at(i, "case") == "I-sphere-loop")
      peak = std::max(peak, std::fabs(table.number_at(i, "F_N")));
  int checked = 0;
  for (std::size_t i = 0; i < table.records.size(); ++i) {
    if (table.text_at(i, "case") != "I-sphere-loop") continue;
    const std::string& position = table.text_at(i, "position");
    const double z = 1e-3 * std::atof(position.c_str() + position.find('=') + 1);
    INFO(position);
    CHECK(amperes * moment(radius, 1.2) * axis_slope(ring, z) == near(table.number_at(i, "F_N"), 1e-11));

    // The ring becomes a winding of 1 mm square; what that changes is the mean over its section.
    double mean = 0;
    for (std::size_t j = 0; j < rule.at.size(); ++j)
      for (std::size_t k = 0; k < rule.at.size(); ++k)
        mean += rule.weight[j] * rule.weight[k] *
                axis_slope(ring + half * (2 * rule.at[j] - 1), z - half * (2 * rule.at[k] - 1));
    Device device = in_air({coil_of("ring", {ring - half, ring + half, -half, half}, 1)});
    device.magnets = {{"ball", ball(radius, z), MagnetLaw{0, 1.2, 1}, "test"}};
    device.moving = {"ball"};
    const auto solved = path.solve(device, 0, {{amperes}});
    CHECK(std::fabs(solved[0].force_N - amperes * moment(radius, 1.2) * mean) < 3e-5 * peak);
    ++checked;
  }
  CHECK(checked == 4);
}

TEST_CASE("two magnetised balls pull each other as point dipoles do") {
  FePath path(4, {2.5});
  const double lower = 6e-3, upper = 4e-3;
  for (const double gap : {1e-3, 4e-3, 15e-3}) {
    Device device;
    device.magnets = {{"lower", ball(lower, 0), MagnetLaw{0, 1.2, 1}, "test"},
                      {"upper", ball(upper, lower + gap + upper), MagnetLaw{0, 1.0, 1}, "test"}};
    device.moving = {"upper"};
    const auto solved = path.solve(device, 0, {{}});
    const double d = lower + gap + upper;
    INFO("gap " << gap << " m");
    // 1e-5 of the force at 1 mm: an error of the mesh goes with the balls' own field, not with the pull
    const double scale = 1.5 * mu0 / pi * moment(lower, 1.2) * moment(upper, 1.0);
    CHECK(std::fabs(solved[0].force_N + scale / std::pow(d, 4)) <
          1e-5 * scale / std::pow(lower + 1e-3 + upper, 4));
  }
}
