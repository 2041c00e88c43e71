// SPDX-License-Identifier: GPL-3.0-or-later
#include "apps/winding/winding_sheet.hpp"

#include <doctest/doctest.h>

#include <cmath>

#include "apps/input/force_table_file.hpp"
#include "apps/output/winding_text.hpp"
#include "apps/winding/wire_choice.hpp"
#include "materials/constants.hpp"
#include "tests/near.hpp"

using namespace coilpull;

namespace {

/// 10 x 20 mm of window on a bore of 10 mm, 1 mm wire that is 1 mm over everything: 200 turns in rows.
Coil round_numbers() {
  Coil coil{"drive", rectangle(0.01, 0.02, 0, 0.02), 200, "drive"};
  coil.wire = RoundWire{0.9e-3, 1e-3, Metal::copper};
  return coil;
}

/// Force 2 N per ampere at 0 mm and 3 N per ampere at 1 mm, linkage 4 mWb per ampere; invented.
ForceGrid straight_table() {
  std::string text =
      "displacement_mm,current_drive_A,force_N,force_numerical_error_N,flux_linkage_drive_Wb\n";
  for (const int z : {0, 1})
    for (const int i : {-10, -5, 0, 5, 10})
      text += std::to_string(z) + "," + std::to_string(i) + "," + std::to_string((2 + z) * i) + ",0.01," +
              std::to_string(0.004 * i) + "\n";
  return ForceGrid(read_force_table(read_csv_text(text, "t.csv")));
}

const WireRow& row_called(const std::vector<WireRow>& rows, const std::string& size) {
  for (const WireRow& row : rows)
    if (row.size == size) return row;
  FAIL("no row " << size);
  return rows.front();
}

}  // namespace

TEST_CASE("length, mass and resistance of a winding are those of its mean turn, by hand") {
  const WindingSheet sheet = *winding_sheet(round_numbers());
  CHECK(sheet.in_rows == 200);
  CHECK(sheet.turns_a_layer == 20);
  CHECK(sheet.layers == 10);
  CHECK(sheet.turn_m == near(2 * pi * 0.015, 1e-13));
  const double section = pi * 0.9e-3 * 0.9e-3 / 4;
  CHECK(sheet.wire_m == near(200 * 2 * pi * 0.015, 1e-13));
  CHECK(sheet.wire_kg == near(sheet.wire_m * section * 8890, 1e-13));                 // IEC 60028
  CHECK(sheet.resistance_20_ohm == near(sheet.wire_m * 1.7241e-8 / section, 1e-13));  // IEC 60028
  CHECK(sheet.fill == near(200 * section / (0.01 * 0.02), 1e-13));
}

TEST_CASE(
    "a hot winding has 0.393 % more resistance a kelvin, one of aluminium 1.64 times as much at a third of "
    "the mass") {
  Coil coil = round_numbers();
  coil.temperature_degC = 120;
  const WindingSheet hot = *winding_sheet(coil);
  CHECK(hot.resistance_ohm / hot.resistance_20_ohm == near(1.393, 1e-12));
  coil.wire->metal = Metal::aluminium;
  const WindingSheet light = *winding_sheet(coil);
  CHECK(light.resistance_20_ohm / hot.resistance_20_ohm == near(2.8264 / 1.7241, 1e-12));
  CHECK(light.wire_kg / hot.wire_kg == near(2703.0 / 8890, 1e-12));
}

TEST_CASE(
    "a film between layers takes room from the layers, not from the turns of a layer, and keeps them from "
    "nesting") {
  Coil coil = round_numbers();
  coil.bobbin = Bobbin{coil.outline, 0, 0, 0, 0.3e-3};
  const WindingSheet sheet = *winding_sheet(coil);
  CHECK(sheet.in_rows ==
        7 * 20);  // 7 layers of 1 mm and 6 films of 0.3 mm: 8.8 mm; an eighth would need 10.1
  CHECK(sheet.nested == sheet.in_rows);
  CHECK_FALSE(winding_sheet(Coil{"bare", coil.outline, 5, "bare"}).has_value());
}

TEST_CASE("wires in one window: force by ampere-turns, inductance by turns squared, current by Ohm's law") {
  const Coil coil = round_numbers();
  WireChoice choice{8.0};
  choice.source_ohm = 0.5;
  choice.pulse_s = 0.02;
  const std::vector<WireRow> rows = wire_rows(coil, straight_table(), choice);
  const WireRow& row = row_called(rows, "0.71 mm");
  CHECK(row.overall_m == near(0.789e-3, 1e-12));  // grade 2, IEC 60317 table
  CHECK(row.turns == turns_nested({0.01, 0.02}, 0.789e-3));
  CHECK(row.ohm == near(row.turns * 2 * pi * 0.015 * 1.7241e-8 / (pi * 0.71e-3 * 0.71e-3 / 4), 1e-12));
  CHECK(row.ampere == near(8 / (row.ohm + 0.5), 1e-12));
  CHECK(row.ampere_turns == near(row.ampere * row.turns, 1e-12));
  CHECK(*row.force_N ==
        near(3 * row.ampere_turns / 200, 1e-9));  // at 1 mm the table has 3 N per ampere of 200 turns
  CHECK(row.displacement == near(1e-3, 1e-12));
  CHECK(row.heat_J == near(row.ampere * row.ampere * row.ohm * 0.02, 1e-12));
  CHECK(row.time_constant_s == near(0.004 * std::pow(row.turns / 200, 2) / (row.ohm + 0.5), 1e-9));
}

TEST_CASE("a wire whose ampere-turns leave the table gets no force, and the reason is told") {
  WireChoice choice{200.0};
  const Coil coil = round_numbers();
  const std::vector<WireRow> rows = wire_rows(coil, straight_table(), choice);
  CHECK_FALSE(rows.back().force_N.has_value());
  CHECK(rows.back().why == "outside the table's currents in drive, -10 to 10 A");
  const std::string text = wire_choice_text(coil, choice, rows);
  CHECK(text.find("-: not told by the table: outside the table's currents in drive, -10 to 10 A.") !=
        std::string::npos);
}

TEST_CASE("thicker wire means fewer ohms and no more turns, whichever list of sizes is asked for") {
  WireChoice choice{5.0};
  for (const bool by_gauge : {false, true}) {
    choice.by_gauge = by_gauge;
    const std::vector<WireRow> rows = wire_rows(round_numbers(), straight_table(), choice);
    CHECK(rows.size() > 20);
    for (std::size_t i = 1; i < rows.size(); ++i) {
      CHECK(rows[i].bare_m > rows[i - 1].bare_m);
      CHECK(rows[i].turns <= rows[i - 1].turns);
      CHECK(rows[i].ohm < rows[i - 1].ohm);
    }
  }
}
