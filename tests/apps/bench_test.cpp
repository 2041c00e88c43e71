// SPDX-License-Identifier: GPL-3.0-or-later
#include "apps/bench/bench_sheet.hpp"

#include <cmath>

#include "apps/output/bench_text.hpp"
#include "materials/constants.hpp"
#include "solver/closed_form/thick_coil.hpp"
#include "solver/sweep/sweep.hpp"
#include "tests/near.hpp"

using namespace coilpull;

namespace {

/// Nothing but numbers: every question is answered with force 8 / (1 + x/mm) N and 1 N/A, 3 mH, 0.2 T.
ForceTable pretended(const Device& device, bool slopes) {
  ForceTable table;
  table.circuits = device.circuits;
  table.currents_per_displacement = device.currents_A.size();
  for (const double x : device.displacements)
    for (const auto& set : device.currents_A) {
      Measurement row{};
      row.displacement = x;
      row.currents_A = set;
      row.force_N = {8 / (1 + 1e3 * x) + (set.empty() ? 0 : set[0]), 0.01};
      row.linkage_Wb = std::vector<Measured>(device.circuits.size(), {3e-3, 1e-6});
      row.sensors =
          std::vector<SensorField>(device.sensors.size(), {0, device.tolerance < 0.01 ? 0.2 : 0.201});
      if (slopes)
        row.slopes = Slopes{0,
                            {},
                            std::vector<std::vector<double>>(
                                device.circuits.size(), std::vector<double>(device.circuits.size(), 3e-3))};
      table.rows.push_back(row);
    }
  return table;
}

Device coil_and_magnet() {
  Device device;
  device.title = "bench";
  device.coils = {
      {"drive", rectangle(7.5e-3, 12.5e-3, -12e-3, 12e-3), 180, "drive", 1, RoundWire{0.71e-3, 0.8e-3}}};
  device.magnets = {{"rod", rectangle(0, 4e-3, 20e-3, 30e-3), {0, 1.2, 1.0}, "test"}};
  device.circuits = {"drive"};
  device.moving = {"rod"};
  for (int i = 0; i <= 30; ++i) device.displacements.push_back(1e-3 * i);
  device.currents_A = {{-2}, {0}, {2}};
  return device;
}

ForceTable solved(const Device& device, bool slopes) {
  SweepOptions options;
  options.threads = 1;
  options.slopes = slopes;
  options.audit = false;
  return sweep(device, options);
}

}  // namespace

TEST_CASE(
    "a winding's resistance is its turns times the circle through its centre over the copper's section") {
  const BenchSheet sheet = bench_sheet(coil_and_magnet(), pretended);
  CHECK(sheet.coils[0].turn_m == near(2 * pi * 10e-3, 1e-12));  // Pappus, centre of the section at 10 mm
  // IEC 60028: 1/58 ohm mm2/m at 20 degC; the library has it to five digits.
  CHECK(*sheet.coils[0].resistance_ohm == near(180 * 2 * pi * 10e-3 / 58 / (pi * 0.71 * 0.71 / 4), 5e-5));
}

TEST_CASE("the sheet shows where the pull is strongest, about half and about a quarter of it") {
  const BenchSheet sheet = bench_sheet(coil_and_magnet(), pretended);
  REQUIRE(sheet.gaps.size() == 3);
  // Tried: 0, 4, 8, 11, 15, 19, 23, 26 and 30 mm, with 8 N, 1.6 N, 0.89 N, ...: 1.6 N is nearest to 4 N.
  CHECK(sheet.gaps[0].displacement == 0);
  CHECK(sheet.gaps[1].displacement == near(4e-3, 1e-12));
  CHECK(sheet.gaps[2].displacement == near(8e-3, 1e-12));
  CHECK(sheet.gaps[1].off_N.value == near(1.6, 1e-12));
  CHECK(sheet.strongest_A == std::vector<double>{2});
  CHECK(sheet.gaps[1].on_N->value == near(3.6, 1e-12));
}

TEST_CASE("a field has twice its change between two meshes as its bar") {
  const BenchSheet sheet = bench_sheet(coil_and_magnet(), pretended);
  REQUIRE(sheet.faces.size() == 4);
  CHECK(sheet.faces[0].bz_T.error == near(0.002, 1e-9));
}

TEST_CASE("what is missing is told: a wire, and rows that could not be solved") {
  Device device = coil_and_magnet();
  device.coils[0].wire.reset();
  const auto lost = [](const Device& changed, bool slopes) {
    ForceTable table = pretended(changed, slopes);
    for (Measurement& row : table.rows) {
      row.force_N = {NAN, NAN};
      row.linkage_Wb.assign(row.linkage_Wb.size(), {NAN, NAN});
      row.sensors.assign(row.sensors.size(), {NAN, NAN});
      row.slopes.reset();
      row.why = "no mesh";
    }
    return table;
  };
  const std::string text = bench_text(bench_sheet(device, lost), device);
  CHECK(text.find("coil drive: not known: the device file names no wire. Add wire =") != std::string::npos);
  CHECK(text.find("Not solved: magnet rod alone: no mesh") != std::string::npos);
  CHECK(text.find("Not solved: the pull: no mesh") != std::string::npos);
}

TEST_CASE(
    "solved, coils and magnets alone agree with closed formulas within their bars, and these are narrow") {
  Device device = coil_and_magnet();
  device.displacements = {2e-3};
  const BenchSheet sheet = bench_sheet(device, solved);
  const double length = 10e-3, radius = 4e-3;
  for (const FaceOnBench& face : sheet.faces) {
    // On the axis of a uniformly magnetised cylinder, the field of its two charged ends.
    const double z = face.distance;
    const double b = 0.6 * ((z + length) / std::hypot(z + length, radius) - z / std::hypot(z, radius));
    CHECK(std::abs(face.bz_T.value - b) <= face.bz_T.error);
    CHECK(face.bz_T.error < 0.01 * b);
  }
  const double coil = 180 * 180 * self_inductance(Box{7.5e-3, 12.5e-3, -12e-3, 12e-3});
  const Measured alone = sheet.circuits[0].coils_alone_H;
  CHECK(std::abs(alone.value - coil) <= alone.error);
  CHECK(alone.error < 1e-3 * alone.value);
  CHECK(sheet.gaps[0].inductance_H[0].value ==
        near(alone.value, 0.01));  // a magnet of mu_r 1 is air to the coil
  const std::string csv = bench_csv(sheet, device);
  CHECK(csv.find("\r\nforce,moving parts,\"displacement 2 mm, drive = 2 A\",gf,") != std::string::npos);
}
