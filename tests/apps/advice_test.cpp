// SPDX-License-Identifier: GPL-3.0-or-later
// Advice against tables whose answers are known in closed form. All numbers are invented.
#include <cmath>

#include "apps/advice/holding_advice.hpp"
#include "apps/advice/rating_advice.hpp"
#include "apps/advice/sensor_advice.hpp"
#include "apps/advice/switching_advice.hpp"
#include "apps/input/solved_rows.hpp"
#include "apps/output/csv_table.hpp"
#include "apps/output/holding_text.hpp"
#include "tests/near.hpp"

namespace coilpull {
namespace {

constexpr double turn = 15e-3;    ///< where the current's force changes its sign [m]
constexpr double rest = 22e-3;    ///< where the force without current does
constexpr double k = 100;         ///< current's force k (turn - z) i [N/(A m)]
constexpr double stiffness = 20;  ///< without current -stiffness (z - rest) [N/m]
constexpr double henry = 2e-3;
constexpr double bar_N = 1e-3;

/// W' = henry i^2 / 2 + k (turn z - z^2 / 2) i - stiffness (z - rest)^2 / 2, 0 to 40 mm, -3 to 3 A: force and
/// linkage are its slopes. A polynomial that the splines hold exactly.
ForceTable closed_table() {
  ForceTable table;
  table.circuits = {"drive"};
  table.currents_per_displacement = 5;
  for (int n = 0; n <= 20; ++n)
    for (int m = -2; m <= 2; ++m) {
      const double z = 2e-3 * n, i = 1.5 * m;
      Measurement row{};
      row.displacement = z;
      row.clearance = 1e-3;
      row.currents_A = {i};
      row.force_N = {k * (turn - z) * i - stiffness * (z - rest), bar_N};
      row.linkage_Wb = {{henry * i + k * (turn * z - z * z / 2), 1e-6}};
      row.coenergy_J =
          henry * i * i / 2 + k * (turn * z - z * z / 2) * i - stiffness * (z - rest) * (z - rest) / 2;
      table.rows.push_back(row);
    }
  return table;
}

}  // namespace

TEST_CASE("best switching places are where the current's share of the force changes its sign") {
  const ForceTable table = closed_table();
  const DriveTable drive = drive_of(table, "");
  REQUIRE(drive.fit.within_bars());
  const SwitchingAdvice advice = switching_advice(table, drive, 3);
  REQUIRE(advice.turns_off.size() == 1);
  CHECK(advice.turns_off[0].holds);
  CHECK(advice.turns_off[0].displacement.value == near(rest, 1e-9));  // straight in z: exact between rows

  // Towards +z, +3 A helps up to 15 mm and -3 A from there to 40 mm, which is the longer way. The fit follows
  // the polynomial within a ten-thousandth of a bar (tolerance: 1e-4 of the place).
  REQUIRE(advice.towards_plus.plain);
  const SwitchingWindow& plain = *advice.towards_plus.plain;
  CHECK(plain.current_A == -3);
  CHECK(plain.on.value == near(turn, 1e-4));
  CHECK(plain.off_is_end);
  CHECK(plain.gain_J.value == near(k * 3 * 25e-3 * 25e-3 / 2, 1e-4));
  CHECK(plain.on.error == near(2 * bar_N / (3 * k), 2e-3));  // both bars over the slope of the difference
  REQUIRE(advice.towards_plus.reversed);
  CHECK(advice.towards_plus.reversed->current_A == 3);
  CHECK(advice.towards_plus.reversed->on_is_end);
  CHECK(advice.towards_plus.reversed->off.value == near(turn, 1e-4));
  CHECK(advice.towards_plus.reversed->gain_J.value == near(k * 3 * turn * turn / 2, 1e-4));

  CHECK(advice.towards_plus.reversed->off.value <= plain.on.value);  // never both at once

  // The way back: the same windows with the other current, entered from their other end.
  REQUIRE(advice.towards_minus.plain);
  CHECK(advice.towards_minus.plain->current_A == 3);
  CHECK(advice.towards_minus.plain->on_is_end);
  CHECK(advice.towards_minus.plain->off.value == near(turn, 1e-4));
}

TEST_CASE("the least current that starts the mover is what friction and the steel's hold ask for") {
  const DriveTable drive = drive_of(closed_table(), "");
  Mechanics mechanics;
  mechanics.dry_friction = 0.1;
  mechanics.load = -0.05;
  const double step_A =
      6.0 / 240;  // currents are tried on such a grid, so the answer lies less than one above
  int seen = 0;
  for (const StartAt& at : starts_along(drive, mechanics)) {
    const double per_A = k * (turn - at.displacement), off = -stiffness * (at.displacement - rest) - 0.05;
    CHECK(at.off_N.value == near(off, 1e-3 + 1e-3 / std::abs(off)));
    if (std::abs(per_A) < 0.2) continue;  // hardly any force from the current: the grid decides
    const double wanted = off > 0.1 + bar_N ? 0 : (0.1 + bar_N - off) / per_A;
    if (std::abs(wanted) > 3) {
      CHECK_FALSE(at.to_plus_A.has_value());
    } else if (std::abs(wanted) < 3 - step_A) {
      REQUIRE(at.to_plus_A.has_value());
      CHECK(std::abs(*at.to_plus_A) >= std::abs(wanted) - 1e-4);
      CHECK(std::abs(*at.to_plus_A) <= std::abs(wanted) + step_A + 1e-4);
      ++seen;
    }
  }
  CHECK(seen > 50);
}

TEST_CASE(
    "a gap lets go at the current whose force balances the load, as surely as bars and remanence allow") {
  // F = 5 + 3 i against a load of -2 N: 0 at -1 A, straight, so exact; bar (0.01 + 0.3) / 3.
  const std::vector<double> currents_A = {-3, -1.5, 0, 1.5};
  std::vector<Measured> forces_N;
  for (const double i : currents_A) forces_N.push_back({5 + 3 * i, 0.01});
  const auto balance = balance_currents(currents_A, forces_N, -2, 0.3);
  REQUIRE(balance.size() == 1);
  CHECK(balance[0].value == near(-1, 1e-12));
  CHECK(balance[0].error == near(0.31 / 3, 1e-12));
  CHECK(balance_currents(currents_A, forces_N, -20, 0.3).empty());
}

TEST_CASE("a bent holding force crosses within its bar of the straight line's answer") {
  // F = (i + 2)^2 / 2 balances 1 N at sqrt(2) - 2; the line between the points beside it misses by some
  // tenths.
  const std::vector<double> currents_A = {-2, -1, 0, 1, 2};
  std::vector<Measured> forces_N;
  for (const double i : currents_A) forces_N.push_back({(i + 2) * (i + 2) / 2, 0});
  const auto balance = balance_currents(currents_A, forces_N, -1, 0);
  REQUIRE(balance.size() == 1);
  CHECK(std::abs(balance[0].value - (std::sqrt(2.0) - 2)) < balance[0].error);
  CHECK(balance[0].error < 0.1);
}

TEST_CASE(
    "a current dies through resistance and a held voltage as the closed form of a constant inductance") {
  const DriveTable drive = drive_of(closed_table(), "");
  const double ohm = 0.8, volts = 12, ampere = 3;
  // L di/dt = -(R i + V): t = L / R ln(1 + I R / V), energy V L / R (I - V / R ln(1 + I R / V)).
  const double logarithm = std::log(1 + ampere * ohm / volts);
  const SwitchOff off = switch_off(drive, 20e-3, ampere, ohm, volts);
  // Midpoint rule of 400 steps: 1e-5; the fit's inductance: 1e-3 of its bar over 3 A.
  CHECK(off.seconds == near(henry / ohm * logarithm, 1e-3));
  CHECK(off.taken_J == near(volts * henry / ohm * (ampere - volts / ohm * logarithm), 1e-3));
  CHECK(off.taken_J < henry * ampere * ampere / 2);  // the winding takes its share
}

TEST_CASE("a unipolar sensor switches where its field passes the levels, scattered as its sheet") {
  // B = 10 mT (1 - |z - 20 mm| / 20 mm): on at 20 B / 10 mT from the near end, off as far from the other.
  SensorCurve curve;
  for (int n = 0; n <= 40; ++n) {
    curve.displacements.push_back(1e-3 * n);
    curve.along_T.push_back(10e-3 * (1 - std::abs(n - 20) / 20.0));
  }
  SwitchingSensor sensor{0, 1, 0, SwitchingSensor::Kind::unipolar, {4e-3, 6e-3, 8e-3}, {2e-3, 4e-3, 6e-3}};
  const SensorPassage seen = passage(curve, sensor);
  REQUIRE(seen.operates);
  CHECK(seen.operates->typical == near(12e-3, 1e-9));  // straight lines between the points: exact
  CHECK(seen.operates->least == near(8e-3, 1e-9));
  CHECK(seen.operates->most == near(16e-3, 1e-9));
  REQUIRE(seen.releases);
  CHECK(seen.releases->typical == near(32e-3, 1e-9));
  CHECK(seen.releases->width() == near(8e-3, 1e-9));

  sensor.operate.most = 11e-3;  // a dull one never goes on
  CHECK_FALSE(passage(curve, sensor).operates);
}

TEST_CASE("a latching sensor waits for the field to reverse") {
  SensorCurve curve;
  for (int n = 0; n <= 40; ++n) {
    curve.displacements.push_back(1e-3 * n);
    curve.along_T.push_back(10e-3 * (1 - n / 20.0));  // 0 at 20 mm
  }
  const SwitchingSensor sensor{
      0, 1, 0, SwitchingSensor::Kind::latching, {2e-3, 3e-3, 4e-3}, {-4e-3, -3e-3, -2e-3}};
  const SensorPassage seen = passage(curve, sensor);
  CHECK(seen.on_at_start);
  REQUIRE(seen.releases);
  CHECK(seen.releases->typical == near(26e-3, 1e-9));
}

TEST_CASE("a coil trips a sensor that the magnet left off, and masks one that it held on") {
  const SwitchingSensor sensor{
      0, 1, 0, SwitchingSensor::Kind::unipolar, {4e-3, 6e-3, 8e-3}, {2e-3, 4e-3, 6e-3}};
  const SensorCurve off{{0, 1e-3}, {0, 9e-3}}, harmless{{0, 1e-3}, {1e-3, 10e-3}},
      trips{{0, 1e-3}, {4e-3, 13e-3}}, masks{{0, 1e-3}, {-4e-3, 5e-3}};
  const CoilOnSensor no = coil_on_sensor(off, {harmless}, sensor),
                     trip = coil_on_sensor(off, {trips}, sensor), mask = coil_on_sensor(off, {masks}, sensor);
  CHECK((!no.trips && !no.masks));
  CHECK((trip.trips && !trip.masks));
  CHECK((!mask.trips && mask.masks));
  CHECK(trip.most_T == near(4e-3, 1e-12));
}

TEST_CASE("a held mover lets go at the first balance away from zero and is held again beyond the second") {
  HoldingAdvice advice{};
  HoldAt hold{};
  hold.held_off = true;
  hold.lets_go_A = {{-1, 0.1}, {2, 0.1}, {5, 0.1}};
  advice.holds = {hold};
  const std::string said = holding_text(advice);
  CHECK(said.find("balance at -1 +- 0.1 A: beyond it, away from 0, it lets go.") != std::string::npos);
  CHECK(said.find("balance at 2 +- 0.1 A: beyond it, away from 0, it lets go.") != std::string::npos);
  CHECK(said.find("balance at 5 +- 0.1 A: beyond it, away from 0, it holds.") != std::string::npos);
}

TEST_CASE("advice out of the file of a table is that out of the table itself") {
  // Bounds: a file has the shortest numbers that read back the same, but displacements in mm: one rounding.
  const ForceTable table = closed_table();
  const ForceTable read = solved_rows(read_force_table(read_csv_text(csv_text(table), "the table")));
  const DriveTable drive = drive_of(table, ""), from_file = drive_of(read, "");
  for (const double z : {3e-3, 15.5e-3, 31e-3})
    for (const double current_A : {-2.0, 0.5, 3.0}) {
      CHECK(from_file.force_N(z, current_A).value == near(drive.force_N(z, current_A).value, 1e-9));
      CHECK(from_file.force_N(z, current_A).error == near(drive.force_N(z, current_A).error, 1e-6));
    }
  const SwitchingAdvice known = switching_advice(table, drive, 3),
                        told = switching_advice(read, from_file, 3);
  REQUIRE(known.turns_off.size() == 1);
  REQUIRE(told.turns_off.size() == 1);
  CHECK(told.turns_off[0].displacement.value == near(known.turns_off[0].displacement.value, 1e-9));
  CHECK(told.towards_plus.plain->gain_J.value == near(known.towards_plus.plain->gain_J.value, 1e-9));
}

}  // namespace coilpull
