// SPDX-License-Identifier: GPL-3.0-or-later
// Wheeler's short formulas against the exact inductance, over the ranges that their header calls fair.
#include "solver/closed_form/inductance_rules.hpp"

#include <cmath>
#include <initializer_list>

#include "solver/closed_form/nagaoka.hpp"
#include "solver/closed_form/thick_coil.hpp"
#include "tests/near.hpp"

using namespace coilpull;

TEST_CASE("Wheeler's formula of one layer is within 1 % from a length of 0.8 radii on") {
  for (double slender = 0.8; slender < 50; slender *= 1.1)
    CHECK(wheeler_single_layer(0.01, 0.01 * slender, 70) ==
          near(solenoid_inductance(0.01, 0.01 * slender, 70), 0.01));
}

TEST_CASE("Wheeler's later formula is within 0.1 % for one layer of any length") {
  for (double slender = 1e-3; slender < 1e3; slender *= 1.2)
    CHECK(wheeler_any_length(0.01, 0.01 * slender, 70) ==
          near(solenoid_inductance(0.01, 0.01 * slender, 70), 1e-3));
}

TEST_CASE("Wheeler's formula of many layers is within 2 % where its terms are about equal") {
  for (const double l : {0.5, 0.667, 0.85})
    for (const double c : {0.45, 0.6, 0.75}) {
      const double a = 0.02;
      const Box coil{a * (1 - c / 2), a * (1 + c / 2), 0, a * l};
      INFO("length " << l << ", depth " << c << " mean radii");
      CHECK(wheeler_many_layers(a, a * l, a * c, 100) == near(1e4 * self_inductance(coil), 0.02));
    }
}
