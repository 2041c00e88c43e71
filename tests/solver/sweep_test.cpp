// SPDX-License-Identifier: GPL-3.0-or-later
#include "solver/sweep/sweep.hpp"

#include <doctest/doctest.h>

#include <atomic>
#include <cmath>

#include "meshing/bad_section.hpp"
#include "solver/refine/error_bar.hpp"
#include "tests/near.hpp"
#include "tests/physics/devices.hpp"

using namespace coilpull;

namespace {

Device small_table() {
  Device device = tube_and_rod();
  device.displacements = {0, 10e-3, 20e-3};
  device.currents_A = {{-5}, {0}, {5}};
  device.tolerance = 0.02;
  return device;
}

}  // namespace

TEST_CASE("numbers of a table do not depend on the number of threads") {
  SweepOptions one, three;
  one.threads = 1;
  three.threads = 3;
  const ForceTable a = sweep(small_table(), one), b = sweep(small_table(), three);
  REQUIRE(a.rows.size() == 9);
  for (std::size_t i = 0; i < a.rows.size(); ++i) {
    CHECK(a.rows[i].force_N.value == b.rows[i].force_N.value);  // to the last bit
    CHECK(a.rows[i].force_N.error == b.rows[i].force_N.error);
    CHECK(a.rows[i].linkage_Wb[0].value == b.rows[i].linkage_Wb[0].value);
    CHECK(a.rows[i].status == RowStatus::ok);
  }
}

TEST_CASE(
    "given meshes are made again: the same triangles, the same force, and a wrong number of them is "
    "refused") {
  Device device = tube_and_rod();
  device.displacements.clear();
  for (int i = 0; i < 9; ++i) device.displacements.push_back(13e-3 + i * 0.25e-3);
  SweepOptions options;
  options.audit = false;
  const ForceTable first = sweep(device, options);
  std::size_t carried = 0;
  for (std::size_t i = 0; i < first.meshes.size(); ++i)
    carried += first.meshes[i].made_at != device.displacements[i];
  CHECK(carried >= 3);  // of nine displacements anchors and every fourth are meshed
  options.meshes = first.meshes;
  device.tolerance = 1e-9;  // nothing is made finer for it
  const ForceTable again = sweep(device, options);
  CHECK(again.triangles_most == first.triangles_most);
  for (std::size_t i = 0; i < first.rows.size(); ++i)
    CHECK(again.rows[i].force_N.value == first.rows[i].force_N.value);

  options.meshes.pop_back();
  CHECK_THROWS_AS(sweep(device, options), std::invalid_argument);
}

TEST_CASE("slopes come when asked for, and agree with differences along the table") {
  Device device = small_table();
  const double h = 0.1e-3;
  device.displacements = {10e-3 - 2 * h, 10e-3 - h, 10e-3, 10e-3 + h, 10e-3 + 2 * h};
  device.currents_A = {{4.8}, {5.0}, {5.2}};
  device.tolerance = 1e-3;
  CHECK_FALSE(sweep(device).rows[7].slopes);
  SweepOptions options;
  options.slopes = true;
  const ForceTable table = sweep(device, options);
  const auto force = [&](int place) { return table.rows[3 * place + 1].force_N.value; };
  REQUIRE(table.rows[7].slopes);
  const Slopes& slopes = *table.rows[7].slopes;
  // Five meshes 0.1 mm apart, each force good to a few 1e-5 N: 1e-3 of 68 N/m.
  CHECK(slopes.force_per_displacement ==
        near((force(0) - 8 * force(1) + 8 * force(3) - force(4)) / (12 * h), 3e-3));
  CHECK(slopes.force_per_current[0] == near((table.rows[8].force_N.value - table.rows[6].force_N.value) / 0.4,
                                            2e-3));  // curvature over 0.4 A
  CHECK(slopes.inductance[0][0] ==
        near((table.rows[8].linkage_Wb[0].value - table.rows[6].linkage_Wb[0].value) / 0.4, 2e-3));
}

TEST_CASE(
    "forces on all bodies come when asked for and add up to nothing, where parts that touch are one body") {
  Device device = small_table();
  device.cores.push_back(
      core("cap", rectangle(0, 4e-3, 11e-3, 13e-3), FroehlichLaw{2.1, 500}));  // glued to the rod
  device.moving.push_back("cap");
  device.displacements = {10e-3};
  SweepOptions options;
  options.bodies = true;
  const ForceTable table = sweep(device, options);
  REQUIRE(table.bodies == std::vector<std::string>{"tube", "cap+rod", "coil"});
  for (const Measurement& row : table.rows) {
    CHECK(row.body_force_N[1] == near(row.force_N.value, 1e-9));  // the moving group, with the same weight
    double sum = 0;
    for (const double force : row.body_force_N) sum += force;
    CHECK(std::abs(sum) < row.force_N.error);
  }
}

TEST_CASE("a tolerance out of reach of the rounds allowed is marked, and the bars stand") {
  Device device = small_table();
  device.displacements = {10e-3};
  device.currents_A = {{5}};
  device.tolerance = 1e-8;
  const ForceTable table = sweep(device);
  CHECK(table.rows[0].status == RowStatus::tolerance_not_met);
  CHECK(table.rows[0].force_N.error > 0);
  CHECK(std::isfinite(table.rows[0].force_N.value));
}

TEST_CASE("a stopped table keeps what is finished and marks the rest") {
  Device device = small_table();
  std::atomic<int> done{0};
  SweepOptions options;
  options.threads = 1;
  options.on_progress = [&](std::size_t rows, std::size_t) { done = static_cast<int>(rows); };
  options.stop_requested = [&] { return done >= 4; };
  const ForceTable table = sweep(device, options);
  int finished = 0, stopped = 0;
  for (const Measurement& row : table.rows) {
    finished += std::isfinite(row.force_N.value);
    stopped += row.status == RowStatus::stopped;
    CHECK(std::isfinite(row.force_N.value) != (row.status == RowStatus::stopped));
  }
  CHECK(finished == 4);
  CHECK(stopped == 5);
}

TEST_CASE("a row that takes longer than it may is not converged, and says how long that is") {
  Device device = small_table();
  device.displacements = {10e-3};
  SweepOptions options;
  options.row_limit_s = 1e-9;
  const ForceTable table = sweep(device, options);
  for (const Measurement& row : table.rows) {
    CHECK(row.status == RowStatus::not_converged);
    CHECK(row.why == "it took longer than a row may take: 1e-09 s of processor time");
    CHECK(std::isnan(row.force_N.value));
    CHECK(std::isnan(row.force_N.error));
  }
}

TEST_CASE("a mesher that cannot be started marks every row and says so") {
  Device device = small_table();
  SweepOptions options;
  options.mesher.program = "/nonexistent/mesher";
  const ForceTable table = sweep(device, options);
  for (const Measurement& row : table.rows) {
    CHECK(row.status == RowStatus::meshing_failed);
    CHECK(std::isnan(row.force_N.value));
    CHECK(row.why.find("/nonexistent/mesher") != std::string::npos);
  }
}

TEST_CASE("parts that collide somewhere along the stroke are refused before anything is solved") {
  Device device = small_table();
  device.magnets[0].outline = rectangle(0, 6.5e-3, -40e-3, -25e-3);  // thicker than the bore
  device.displacements = {0, 15e-3};
  CHECK_THROWS_AS(sweep(device), BadSection);
}

TEST_CASE(
    "a gap of a hundred-thousandth between parts that stand still to each other is refused, contact is not") {
  Device device = small_table();
  device.displacements = {0};
  device.currents_A = {{0}};
  device.cores.push_back(core("plate", rectangle(6e-3, 9e-3, 20e-3 + 1e-7, 22e-3), FroehlichLaw{2.1, 500}));
  CHECK_THROWS_WITH_AS(check_stroke(device), doctest::Contains("tube and plate leave a gap of 0.0001 mm"),
                       BadSection);
  device.cores.back().outline = rectangle(6e-3, 9e-3, 20e-3, 22e-3);
  CHECK_NOTHROW(check_stroke(device));
}

TEST_CASE("a moving part that touches a fixed one is named, with the displacement and the gap to leave") {
  Device device = small_table();
  device.cores.push_back(core("stop", rectangle(0, 4e-3, 21e-3, 23e-3), FroehlichLaw{2.1, 500}));
  device.displacements = {0, 10e-3};
  std::string said;
  try {
    sweep(device);
  } catch (const BadSection& bad) {
    said = bad.what();
  }
  CHECK(said.find("at displacement 10 mm the moving part rod touches the fixed part stop") == 0);
}

TEST_CASE("a device without steel and without magnets pulls like two coils") {
  // Coaxial coils, like currents: attraction; the published figure is checked elsewhere, here sign and
  // symmetry.
  Device device;
  device.coils = {coil("low", rectangle(10e-3, 20e-3, 0, 10e-3), 200),
                  coil("high", rectangle(10e-3, 20e-3, 15e-3, 25e-3), 200)};
  device.moving = {"high"};
  device.displacements = {0};
  device.circuits = {"low", "high"};
  device.currents_A = {{1, 1}, {1, -1}};
  const ForceTable table = sweep(device);
  CHECK(table.rows[0].force_N.value < 0);
  // F = i1 i2 dM/dz; what the discrete self-forces add is numerical error, and inside the bars.
  CHECK(std::abs(table.rows[0].force_N.value + table.rows[1].force_N.value) <
        table.rows[0].force_N.error + table.rows[1].force_N.error);
  CHECK(table.rows[0].newton_steps == 0);
}

TEST_CASE("an error bar is what rows differ by and what features change, in quadrature, times the safety") {
  OrderDifferences rows{3, {0.0, 1.0, 0.1, 0.2, 0.0, 0.0, 0.0, 0.0, 0.0}, {}};
  const BarRule rule{2, 0.5, 0.3, 0.7};
  std::vector<double> bars = error_bars(rows, rule);
  CHECK(bars[0] == near(2 * 0.5, 1e-15));  // half of its neighbour's in current
  CHECK(bars[1] == near(2.0, 1e-15));
  CHECK(bars[4] == near(2 * 0.5, 1e-15));  // its neighbour in displacement
  const double rms = std::sqrt((1.0 + 0.01 + 0.04) / 9);
  CHECK(bars[8] == near(2 * 0.3 * rms, 1e-15));  // far from all of them: the table's own share
  rows.apart = {2, 2, 2, 2, 2, 2, 2, 0, 1};
  bars = error_bars(rows, rule);
  CHECK(bars[1] == near(2 * std::hypot(1, 0.7 * 2), 1e-15));
  CHECK(bars[4] == near(2 * std::hypot(0.5, 0.7 * 2), 1e-15));
  CHECK(bars[8] == near(2 * std::hypot(0.3 * rms, 0.7), 1e-15));
}

TEST_CASE("a corner's safety is above what its power law leaves of a difference, and follows the ratio up") {
  const auto left = [](double lambda) {  // from order 3 to 4
    const double falls = std::pow(0.75, 4 * lambda);
    return falls / (1 - falls);
  };
  CHECK(force_bar_rule(0, Steel::yes).rough.safety > 1.5 * left(2.0 / 3));
  CHECK(force_bar_rule(0, Steel::no).rough.safety > 1.5 * left(1));
  for (const Steel steel : {Steel::no, Steel::yes}) {
    CHECK(force_bar_rule(0.46, steel).rough.safety == near(2 * 0.46 / 0.54, 1e-15));
    CHECK(force_bar_rule(2, steel).rough.safety == near(18, 1e-14));  // counted as 0.9
    CHECK(force_bar_rule(0.2, steel).smooth.safety > 0.2 / 0.8);
    CHECK(linkage_bar_rule(0.46, steel).safety == near(2 * 0.46 / 0.54, 1e-15));
  }
}
