// SPDX-License-Identifier: GPL-3.0-or-later
#include "materials/rayleigh_start.hpp"

#include "materials/bad_material.hpp"
#include "materials/bh_curve.hpp"
#include "tests/near.hpp"

using namespace coilpull;

TEST_CASE("in weak fields the permeability rises in proportion to the field, as Rayleigh found") {
  const RayleighStart start = rayleigh_through(100, 0.2, 250);
  for (const double h : {0.01, 1.0, 30.0, 100.0}) {
    const double b = mu0 * (250 * h + start.nu_m_per_A * h * h);
    CHECK(start.at(b).h == near(h, 1e-14));
    CHECK(start.at(b).dh_db == near(1 / (mu0 * (250 + 2 * start.nu_m_per_A * h)), 1e-14));
    CHECK(start.at(b).energy_density ==
          near(mu0 * (250 * h * h / 2 + 2 * start.nu_m_per_A * h * h * h / 3), 1e-14));
  }
  CHECK(start.at(0.2).h == near(100, 1e-14));
}

TEST_CASE("a curve begins with its initial permeability and leaves the parabola without a kink") {
  const BhCurve curve({{0, 0}, {132, 0.5}, {318, 0.9}, {1353, 1.4}}, 2.1, 250);
  CHECK(curve.dh_db(0) == near(1 / (mu0 * 250), 1e-14));
  CHECK(*curve.initial_permeability() == 250);
  const double step = 1e-9;
  CHECK(curve.h(0.5) == near(132, 1e-14));
  CHECK(curve.dh_db(0.5 + step) == near(curve.dh_db(0.5 - step), 1e-6));
  CHECK(curve.energy_density(0.5 + step) == near(curve.energy_density(0.5 - step), 1e-6));
}

TEST_CASE("a parabola that cannot reach the first point, or cannot be joined, is refused") {
  const std::vector<BhCurve::Point> points = {{0, 0}, {100, 0.2}, {200, 0.9}};
  CHECK_THROWS_WITH_AS(
      BhCurve(points, 2.0, 2000),
      "initial_permeability = 2000: must be below B/(mu0 H) = 1592 of the first point above zero",
      BadMaterial);
  CHECK_THROWS_WITH_AS(BhCurve(points, 2.0, 0.5),
                       "initial_permeability = 0.5: must be a finite number of at least 1", BadMaterial);
  CHECK_THROWS_WITH_AS(
      BhCurve({{0, 0}, {100, 0.05}, {110, 0.9}}, 2.0, 100),
      "initial_permeability = 100: the curve beyond the first point above zero is too steep to be "
      "joined to Rayleigh's parabola without a kink; leave it out, or give a point at a weaker field",
      BadMaterial);
}
