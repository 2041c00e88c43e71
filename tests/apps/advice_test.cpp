// SPDX-License-Identifier: GPL-3.0-or-later
// Advice against tables whose answers are known in closed form. All numbers are invented.
#include <cmath>

#include "apps/advice/holding_advice.hpp"
#include "apps/advice/rating_advice.hpp"
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
  // Switched off there the pull without current stays, stiffness times the way to its rest.
  CHECK(advice.towards_minus.plain->left_N.value == near(stiffness * (rest - turn), 1e-3));
  CHECK(advice.towards_minus.plain->left_N.error == near(bar_N, 1e-2));
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
  CHECK(off.seconds.value == near(henry / ohm * logarithm, 1e-3));
  CHECK(off.taken_J.value == near(volts * henry / ohm * (ampere - volts / ohm * logarithm), 1e-3));
  CHECK(off.taken_J.value < henry * ampere * ampere / 2);  // the winding takes its share
}

TEST_CASE("what linkage bars leave open of a dying current holds the truth when the rows miss by as much") {
  const double ohm = 0.8, volts = 12, ampere = 3, bar_Wb = 2e-5;
  const double logarithm = std::log(1 + ampere * ohm / volts);  // closed form as in the case above
  const double seconds = henry / ohm * logarithm,
               taken_J = volts * henry / ohm * (ampere - volts / ohm * logarithm);
  for (const double miss : {-0.9, 0.9}) {
    ForceTable table = closed_table();
    for (Measurement& row : table.rows) {
      row.linkage_Wb[0].error = bar_Wb;
      row.linkage_Wb[0].value += row.currents_A[0] > 2 ? miss * bar_Wb : -miss * bar_Wb;
    }
    const SwitchOff off = switch_off(drive_of(table, ""), 20e-3, ampere, ohm, volts);
    CHECK(std::abs(off.seconds.value - seconds) < off.seconds.error);
    CHECK(std::abs(off.taken_J.value - taken_J) < off.taken_J.error);
    CHECK(std::abs(off.taken_J.value - taken_J) > off.taken_J.error / 20);  // the rows do matter
    CHECK(off.seconds.error < 0.05 * seconds);
  }
}

TEST_CASE("incremental inductance of a filling core lies within its bar, which two currents cannot give") {
  // linkage = peak tanh(i / turning) beside a constant force: d/di = peak / turning / cosh^2, in closed form.
  const double peak_Wb = 5e-3, turning_A = 2;
  ForceTable table;
  table.circuits = {"drive"};
  table.currents_per_displacement = 13;
  for (int n = 0; n <= 4; ++n)
    for (int m = -6; m <= 6; ++m) {
      Measurement row{};
      row.displacement = 1e-3 * n;
      row.currents_A = {0.5 * m};
      row.force_N = {1, bar_N};
      row.linkage_Wb = {{peak_Wb * std::tanh(0.5 * m / turning_A), 1e-6}};
      row.coenergy_J = row.displacement + peak_Wb * turning_A * std::log(std::cosh(0.5 * m / turning_A));
      table.rows.push_back(row);
    }
  const DriveTable drive = drive_of(table, "");
  for (const double current_A : {0.0, 0.3, 1.0, 1.75, 2.5, 3.0}) {
    const double exact = peak_Wb / turning_A / std::pow(std::cosh(current_A / turning_A), 2);
    const Measured seen = drive.inductance_H(2e-3, current_A);
    CHECK(std::abs(seen.value - exact) < seen.error);
    CHECK(seen.error < 0.05 * peak_Wb / turning_A);
  }
  ForceTable two = table;
  two.rows.clear();
  two.currents_per_displacement = 2;
  for (const Measurement& row : table.rows)
    if (std::abs(row.currents_A[0]) == 3) two.rows.push_back(row);
  CHECK(std::isinf(drive_of(two, "").inductance_H(2e-3, 1).error));
  // The linkage does not change along this stroke, and five displacements by two currents say so between them
  // too: a straight line misses nothing, whatever a spline through few rows does.
  CHECK(drive_of(two, "").linkage_Wb(1.5e-3, 3).error < 2e-6);
}

TEST_CASE("a held mover lets go at the first balance away from zero and is held again beyond the second") {
  HoldingAdvice advice{};
  HoldAt hold{};
  hold.held_off = true;
  hold.lets_go_A = {{-1, 0.1}, {2, 0.1}, {5, 0.1}};
  advice.holds = {hold};
  const std::string said = holding_text(advice);
  CHECK(said.find("Release current -1 +- 0.1 A: beyond it, away from 0, it lets go.") != std::string::npos);
  CHECK(said.find("Release current 2 +- 0.1 A: beyond it, away from 0, it lets go.") != std::string::npos);
  CHECK(said.find("Holding current 5 +- 0.1 A: it holds beyond, away from 0, and drops out below.") !=
        std::string::npos);
}

TEST_CASE("margins and the supply's current are told in words: least, most, and where it is too little") {
  HoldingAdvice advice{};
  advice.starts = {{0, {1, 0.1}, 0.0, 4.0, 0.9, 2.0},
                   {1e-3, {-1, 0.1}, 3.0, 0.0, -0.5, 1.0},
                   {2e-3, {-2, 0.1}, std::nullopt, 0.0, -1.5, 2.5}};
  CHECK(holding_text(advice).find("supply") == std::string::npos);
  advice.cold_A = 3.5;
  advice.hot_A = 2.5;
  const std::string said = holding_text(advice);
  CHECK(said.find(
            "The supply drives 3.5 A cold, 2.5 A with the winding at its insulation's limit.\n    Towards -z "
            "too little at 0 mm.") != std::string::npos);
  const std::string margins = margin_text(advice);
  CHECK(margins.find("Towards +z: from -1.5 N at 2 mm to 0.9 N at 0 mm.") != std::string::npos);
  CHECK(margins.find("Towards -z: from 1 N at 1 mm to 2.5 N at 2 mm.") != std::string::npos);
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
