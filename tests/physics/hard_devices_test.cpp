// SPDX-License-Identifier: GPL-3.0-or-later
#include <doctest/doctest.h>

#include <cmath>

#include "materials/constants.hpp"
#include "tests/physics/bar_coverage.hpp"
#include "tests/physics/devices.hpp"

using namespace coilpull;

namespace {

const SoftLaw steel = FroehlichLaw{2.1, 500};

/// Every row meets the tolerance and holds the truth.
void expect_covered(const Device& device) {
  const ForceTable table = without_audit(device);
  for (const Measurement& row : table.rows) {
    INFO("at " << 1e3 * row.displacement << " mm: " << row.why);
    CHECK(row.status == RowStatus::ok);
  }
  const std::vector<double> truth = far_finer_forces(device, table);
  for (std::size_t i = 0; i < truth.size(); ++i) {
    INFO("row " << i << ": " << table.rows[i].force_N.value << " against " << truth[i]);
    CHECK(std::abs(table.rows[i].force_N.value - truth[i]) <= table.rows[i].force_N.error);
  }
}

/// A solid core in its winding, a magnet above it.
Device rod_and_disc(double gap) {
  Device device;
  device.cores = {core("rod", rectangle(0, 10e-3, -30e-3, 0), steel)};
  device.coils = {coil("coil", rectangle(11e-3, 18e-3, -29e-3, -1e-3), 400)};
  device.magnets = {magnet("disc", rectangle(0, 10e-3, gap, gap + 5e-3), 0, 1.25)};
  device.moving = {"disc"};
  device.displacements = {0, 1e-3, 4e-3};
  device.circuits = {"coil"};
  device.currents_A = {{-5}, {0}, {5}};
  return device;
}

}  // namespace

TEST_CASE("a gap of 0.05 mm at a radius of 10 mm: the truth inside the bars") {
  expect_covered(rod_and_disc(0.05e-3));
}

TEST_CASE("the same with a back plate glued to the core: the truth inside the bars") {
  Device device = rod_and_disc(0.5e-3);
  device.cores.push_back(core("plate", rectangle(0, 20e-3, -34e-3, -30e-3), steel));
  expect_covered(device);
}

TEST_CASE("three times the ampere-turns that saturate the core: the truth inside the bars") {
  Device device = rod_and_disc(1e-3);
  // An open rod of this shape needs about N Js / mu0 to fill, N its demagnetising factor, here about 0.2.
  const double fills = 0.2 * 2.1 / mu0 * 30e-3 / 400;
  device.currents_A = {{-3 * fills}, {0}, {3 * fills}};
  expect_covered(device);
}

TEST_CASE("a needle that ends in a tip of one degree: tables of two tolerances agree within their bars") {
  // 57 times as long as thick at its foot and saturated over half its length: the field around thin permeable
  // bodies converges slowly, so the tolerances are modest.
  const double length = 20e-3, radius = length * std::tan(0.5 * pi / 180);  // one degree of opening
  Device device;
  const Point foot{0, 0}, edge{radius, 0}, tip{0, length};
  device.cores = {core("needle", {{{foot, edge}, {edge, tip}, {tip, foot}}}, steel)};
  device.coils = {coil("coil", rectangle(4e-3, 8e-3, 10e-3, 30e-3), 300)};
  device.moving = {"needle"};
  device.displacements = {0};
  device.circuits = {"coil"};
  device.currents_A = {{3}};
  device.tolerance = 0.02;
  const Measurement plain = without_audit(device).rows[0];
  device.tolerance = 0.002;
  const Measurement finer = without_audit(device).rows[0];
  CHECK(plain.status == RowStatus::ok);
  CHECK(finer.status == RowStatus::ok);
  CHECK(finer.force_N.error < plain.force_N.error);
  CHECK(std::abs(plain.force_N.value - finer.force_N.value) <= plain.force_N.error);
}

TEST_CASE("a magnet inside a closed tube of steel: the truth inside the bars") {
  Device device = tube_and_rod();
  device.cores[0].outline = rectangle(5e-3, 9e-3, -25e-3, 35e-3);  // the rod stays deep inside
  device.displacements = {-10e-3, 0, 8e-3};
  device.currents_A = {{-6}, {0}, {6}};
  expect_covered(device);
}

TEST_CASE("where the force vanishes by symmetry the bar is that of the table, and holds zero") {
  Device device = tube_and_rod();
  device.coils[0].outline = rectangle(9.5e-3, 14e-3, -12e-3, 12e-3);
  device.magnets[0].outline = rectangle(0, 4.5e-3, -8e-3, 8e-3);
  device.displacements = {-15e-3, 0, 15e-3};
  device.currents_A = {{0}};
  const ForceTable table = without_audit(device);
  CHECK(table.rows[1].status == RowStatus::ok);
  CHECK(std::abs(table.rows[1].force_N.value) <= table.rows[1].force_N.error);
  CHECK(table.rows[1].force_N.error <= device.tolerance * table.peak_force_N);
  CHECK(std::abs(table.rows[0].force_N.value + table.rows[2].force_N.value) <=
        std::hypot(table.rows[0].force_N.error, table.rows[2].force_N.error));
}
