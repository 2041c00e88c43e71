// SPDX-License-Identifier: GPL-3.0-or-later
#include <doctest/doctest.h>

#include <cmath>

#include "apps/output/csv_table.hpp"
#include "apps/output/magnet_text.hpp"
#include "apps/output/table_columns.hpp"
#include "tests/apps/hand_made_table.hpp"

using namespace coilpull;

namespace {

/// The plunger's table with its magnet: driven harder by negative currents, past its knee in the last
/// displacement.
ForceTable table_with_magnet() {
  ForceTable table = plunger_table();
  table.magnets = {"plunger"};
  for (Measurement& row : table.rows) {
    const bool hard = row.displacement > 3.5e-3 && row.currents_A[0] < 0;
    row.magnets = {{0.4 + 0.1 * row.currents_A[0] - 10 * row.displacement, 0.8, hard ? 0.07 : 0.002}};
  }
  return table;
}

std::string cell(const ForceTable& table, const Measurement& row, const std::string& name) {
  for (const Column& column : table_columns(table))
    if (column.name == name) return column.cell(row);
  return "no such column";
}

}  // namespace

TEST_CASE("each magnet has its columns before newton_steps, and rows past a knee name the magnet") {
  const ForceTable table = table_with_magnet();
  const std::vector<Column> columns = table_columns(table);
  const std::size_t end = columns.size();
  CHECK(columns[end - 6].name == "B_p01_plunger_T");
  CHECK(columns[end - 5].name == "B_mean_plunger_T");
  CHECK(columns[end - 4].name == "past_knee_plunger");
  CHECK(columns[end - 3].name == "magnets_past_knee");
  CHECK(columns[end - 2].name == "newton_steps");
  CHECK(cell(table, table.rows[0], "magnets_past_knee") == "none");
  CHECK(cell(table, table.rows[12], "magnets_past_knee") == "plunger");
  CHECK(cell(table, table.rows[12], "past_knee_plunger") == "0.07");
}

TEST_CASE("a row without numbers does not say that its magnets are well") {
  ForceTable table = table_with_magnet();
  table.rows.back().magnets.clear();
  CHECK(cell(table, table.rows.back(), "magnets_past_knee") == "unknown");
  CHECK(cell(table, table.rows.back(), "past_knee_plunger") == "NaN");
}

TEST_CASE("the summary tells where a magnet is driven hardest and in how many rows it is changed for good") {
  CHECK(magnet_lines(table_with_magnet()) ==
        "Magnet plunger: 1 % of it is below 0.26 T at 4 mm, drive = -1 A; PAST ITS KNEE in 1 of 15 rows (up "
        "to 7 % of "
        "its volume):\n    what these rows say, and all that comes after them, is not true: the magnet is "
        "changed for "
        "good.\n");
  ForceTable unknown = table_with_magnet();
  for (Measurement& row : unknown.rows) row.magnets[0].past_knee = std::nan("");
  CHECK(magnet_lines(unknown) ==
        "Magnet plunger: 1 % of it is below 0.26 T at 4 mm, drive = -1 A; its knee is not known: compare "
        "with a data "
        "sheet.\n");
  CHECK(cell(unknown, unknown.rows[12], "magnets_past_knee") == "none");
}

TEST_CASE("columns of the spread stand only in tables that have one") {
  ForceTable table = plunger_table();
  CHECK(cell(table, table.rows[0], "force_low_N") == "no such column");
  table.rows[0].spread = {0.5, 2.5};
  CHECK(cell(table, table.rows[0], "force_low_N") == "0.5");
  CHECK(cell(table, table.rows[0], "force_high_N") == "2.5");
  CHECK(cell(table, table.rows[1], "force_high_N") == "NaN");
}
