// SPDX-License-Identifier: GPL-3.0-or-later
#include "apps/output/summary.hpp"

#include <doctest/doctest.h>

#include "apps/output/point_text.hpp"
#include "tests/apps/hand_made_table.hpp"

using namespace coilpull;

namespace {

bool says(const std::string& text, const std::string& words) { return text.find(words) != std::string::npos; }

const std::vector<std::string> moving = {"plunger"};

}  // namespace

TEST_CASE("the summary names the strongest push and pull with bar, displacement and current") {
  const std::string text = summary_text(plunger_table(), moving);
  INFO(text);
  CHECK(says(text, "7 +- 0.01 N at 0 mm, drive = 1 A"));
  CHECK(says(text, "-7 +- 0.01 N at 4 mm, drive = -1 A"));
  CHECK(says(text, "4 +- 0.01 N at 0 mm, drive = 0 A"));
}

TEST_CASE("the summary tells where the force changes sign at each current") {
  const std::string text = summary_text(plunger_table(), moving);
  INFO(text);
  CHECK(says(text, "drive = -1 A: 0.5 +- 0.005 mm (pushed back to it)"));
  CHECK(says(text, "drive = 0 A: 2 +- 0.005 mm (pushed back to it)"));
  CHECK(says(text, "drive = 1 A: 3.5 +- 0.005 mm (pushed back to it)"));
}

TEST_CASE("the summary says in words what polarity does") {
  const std::string text = summary_text(plunger_table(), moving);
  INFO(text);
  CHECK(says(text, "positive current runs counter-clockwise seen from +z"));
  CHECK(says(text, "a positive current pushes the plunger towards +z (drive = 1 A adds 3 N)"));
  CHECK(says(text, "a negative current pulls the plunger towards -z (drive = -1 A adds -3 N)"));
}

TEST_CASE("with soft steel alone the summary says that either direction of current does the same") {
  ForceTable table = plunger_table();
  for (Measurement& row : table.rows) row.force_N.value = -5 * row.currents_A[0] * row.currents_A[0];
  const std::string text = summary_text(table, moving);
  INFO(text);
  CHECK(says(text, "either direction of current pulls the plunger towards -z (drive = 1 A adds -5 N)"));
  CHECK(says(text, "strongest push:           none"));
  CHECK(says(text, "Current off, at most:       no force"));
}

TEST_CASE("without a row at zero current the summary still tells what reversing does") {
  ForceTable table = plunger_table();
  for (Measurement& row : table.rows)
    if (row.currents_A[0] == 0) row.currents_A[0] = 0.5;
  const std::string text = summary_text(table, moving);
  INFO(text);
  CHECK(says(text, "from negative to positive current pushes the plunger towards +z (by 6 N)"));
  CHECK(says(text, "not in the table: add 0 to the currents"));
}

TEST_CASE("the summary tells bar and tolerance, limits and cautions") {
  const std::string text = summary_text(plunger_table(), moving);
  INFO(text);
  CHECK(says(text, "0.143 % of the largest force (7 N); asked: 0.2 %"));
  CHECK(says(text, "On axis"));
  CHECK(says(text, "numerical only"));
  CHECK(says(text, cautions));
  CHECK(!says(text, "rows are"));
}

TEST_CASE("rows that are not ok are counted by status and say why") {
  ForceTable table = plunger_table_with_a_lost_row();
  table.rows[0].status = RowStatus::tolerance_not_met;
  table.rows[1].status = RowStatus::tolerance_not_met;
  const std::string text = trouble_text(table);
  INFO(text);
  CHECK(says(text, "2 of 15 rows are tolerance_not_met."));
  CHECK(says(text, "1 of 15 rows are not_converged.\n  at 4 mm, drive = 1 A: no step of Newton's method"));
  CHECK(trouble_text(plunger_table()).empty());
}

TEST_CASE("the energy audit is told in a line, and a mismatch as a warning with its row, also when quiet") {
  const ForceTable table = audited_plunger_table();
  CHECK(says(summary_text(table, moving), "Energy audit: worst mismatch 3 bars over 2 rows.\n"));
  const std::string text = trouble_text(table);
  INFO(text);
  CHECK(says(text, "warning: the force at 4 mm, drive = -1 A is -7 +- 0.01 N, but the energy says -6.97"));
  CHECK(says(text, "N: 3 bars apart."));
  CHECK(says(text, "warning: the flux linkage of drive at 4 mm, drive = -1 A"));
  CHECK(!says(text, "at 0 mm"));  // half a bar is no mismatch
}

TEST_CASE(
    "an audit that found nothing amiss is told without a warning, one that was not made with its reason") {
  ForceTable table = audited_plunger_table();
  table.audit.rows.pop_back();
  CHECK(says(summary_text(table, moving), "Energy audit: worst mismatch 0.5 bars over 1 row.\n"));
  CHECK(trouble_text(table).empty());
  table.audit.rows[0].force_N.error = 0.02;  // twice the bar
  CHECK(
      says(summary_text(table, moving), "over 1 row, in 1 of which the audit is less sure than the bar.\n"));
  table.audit.rows[0].force_N.error = 1e-5;
  CHECK(says(summary_text(plunger_table(), moving), "Energy audit: none: not asked for.\n"));
  table.audit.left_out = "flux linkages: there is no circuit";
  CHECK(says(summary_text(table, moving), "over 1 row; left out: flux linkages: there is no circuit.\n"));
}

TEST_CASE("of many currents the summary shows five, the ends among them, and says how many it left out") {
  ForceTable table = plunger_table();
  const ForceTable source = table;
  table.rows.clear();
  table.currents_per_displacement = 13;
  for (int x = 0; x < 5; ++x)
    for (int i = 0; i < 13; ++i) {
      table.rows.push_back(source.rows[static_cast<std::size_t>(3 * x + 1)]);
      table.rows.back().currents_A = {static_cast<double>(i - 6)};
    }
  const std::string text = summary_text(table, moving);
  INFO(text);
  for (const char* shown : {"drive = -6 A: 2 +- ", "drive = -3 A: 2 +- ", "drive = 0 A: 2 +- ",
                            "drive = 3 A: 2 +- ", "drive = 6 A: 2 +- ", "8 more in the table"})
    CHECK(says(text, shown));
  CHECK(!says(text, "drive = 1 A: 2 +- "));
}

TEST_CASE("a point is told in full: force with bar and sense, linkage, coenergy, steel, sensor, status") {
  ForceTable table = plunger_table();
  table.rows.erase(table.rows.begin());
  const std::string text = point_text(table);
  INFO(text);
  for (const char* words : {"0 mm", "drive = 0 A", "4 +- 0.01 N  (towards +z)", "0 +- 1e-07 Wb", "1.25 T",
                            "r -0.01 T, z 0.02 T", "320 triangles of order 3", "ok"})
    CHECK(says(text, words));
}
