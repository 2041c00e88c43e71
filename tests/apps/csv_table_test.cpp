// SPDX-License-Identifier: GPL-3.0-or-later
#include "apps/output/csv_table.hpp"

#include <doctest/doctest.h>

#include <charconv>
#include <cmath>

#include "apps/output/number_text.hpp"
#include "apps/output/table_columns.hpp"
#include "tests/apps/hand_made_table.hpp"

using namespace coilpull;

namespace {

/// RFC 4180 read the plain way: records end in CRLF, a field may be quoted, a quote inside is doubled.
std::vector<std::vector<std::string>> parse(const std::string& text) {
  std::vector<std::vector<std::string>> records;
  std::vector<std::string> record(1);
  bool quoted = false;
  for (std::size_t i = 0; i < text.size(); ++i) {
    const char c = text[i];
    if (quoted && c == '"' && i + 1 < text.size() && text[i + 1] == '"')
      record.back() += text[++i];
    else if (c == '"')
      quoted = !quoted;
    else if (quoted)
      record.back() += c;
    else if (c == ',')
      record.emplace_back();
    else if (c == '\r' && i + 1 < text.size() && text[i + 1] == '\n') {
      records.push_back(record);
      record.assign(1, "");
      ++i;
    } else
      record.back() += c;
  }
  CHECK(record == std::vector<std::string>{""});  // the last record ends in CRLF too
  return records;
}

double number(const std::string& text) {
  double value = std::nan("");
  const auto read = std::from_chars(text.data(), text.data() + text.size(), value);
  CHECK(read.ptr == text.data() + text.size());
  return value;
}

}  // namespace

TEST_CASE("the table has the agreed columns in the agreed order") {
  ForceTable table = plunger_table();
  table.circuits = {"drive", "brake"};
  table.cores = {"sleeve", "plate"};
  table.sensors = {"entry", "exit"};
  const std::vector<std::string> agreed = {"displacement_mm",
                                           "clearance_mm",
                                           "current_drive_A",
                                           "current_brake_A",
                                           "force_N",
                                           "force_numerical_error_N",
                                           "flux_linkage_drive_Wb",
                                           "flux_linkage_numerical_error_drive_Wb",
                                           "flux_linkage_brake_Wb",
                                           "flux_linkage_numerical_error_brake_Wb",
                                           "coenergy_J",
                                           "B_p99_sleeve_T",
                                           "B_p99_plate_T",
                                           "B_r_entry_T",
                                           "B_z_entry_T",
                                           "B_r_exit_T",
                                           "B_z_exit_T",
                                           "newton_steps",
                                           "status"};
  CHECK(parse(csv_text(table)).front() == agreed);
}

TEST_CASE(
    "forces by closed formulas stand before newton_steps, under their names, NaN where there are none") {
  ForceTable table = plunger_table();
  table.approximations = {"current_sheets", "mirror_image"};
  for (Measurement& row : table.rows) row.approximate_force_N = {1.25};
  const auto rows = parse(csv_text(table));
  const std::size_t columns = rows.front().size();
  CHECK(rows.front()[columns - 4] == "force_current_sheets_N");
  CHECK(rows.front()[columns - 3] == "force_mirror_image_N");
  CHECK(rows.front()[columns - 2] == "newton_steps");
  CHECK(rows.back()[columns - 4] == "1.25");
  CHECK(rows.back()[columns - 3] == "NaN");
}

TEST_CASE("every number of a row reads back as the double that was written") {
  ForceTable table = plunger_table();
  table.rows[4].force_N = {0.1 + 0.2, 1.0 / 3};  // 0.30000000000000004: 17 digits are needed
  table.rows[4].coenergy_J = 4.9406564584124654e-324;
  const auto records = parse(csv_text(table));
  REQUIRE(records.size() == 1 + table.rows.size());
  const std::vector<std::string>& row = records[5];
  CHECK(row[0] == "1");
  CHECK(row[1] == "1");
  CHECK(number(row[2]) == 0.0);
  CHECK(number(row[3]) == 0.1 + 0.2);
  CHECK(number(row[4]) == 1.0 / 3);
  CHECK(number(row[7]) == 4.9406564584124654e-324);
  CHECK(row[8] == "1.25");
  CHECK(row[9] == "-0.01");
  CHECK(row[10] == "0.02");
  CHECK(row[11] == "3");
  CHECK(row[12] == "ok");
}

TEST_CASE("a lost row reads NaN in every unusable column, never empty, and says its status") {
  const ForceTable table = plunger_table_with_a_lost_row();
  const std::vector<std::string> row = parse(csv_text(table)).back();
  const std::vector<std::string> expected = {"4",   "1",   "1",   "NaN", "NaN", "NaN",          "NaN",
                                             "NaN", "NaN", "NaN", "NaN", "3",   "not_converged"};
  CHECK(row == expected);
}

TEST_CASE("millimetres come out of metres as they were typed") {
  int missed = 0;  // all of these are at most six digits long, so 15 digits hold them exactly as typed
  for (int i = -50000; i <= 50000; ++i) {
    const double typed = i / 1000.0;
    if (in_mm(typed * 1e-3) != typed) ++missed;
    if (in_mm(typed / 1e3) != typed) ++missed;
  }
  CHECK(missed == 0);
  CHECK(shortest(in_mm(0.1 * 1e-3)) == "0.1");
  CHECK(std::isnan(in_mm(std::nan(""))));
}

TEST_CASE("a part whose name holds a comma or a quote does not shift the columns") {
  ForceTable table = plunger_table();
  table.cores = {"sleeve, \"outer\""};
  const auto records = parse(csv_text(table));
  CHECK(records.front()[8] == "B_p99_sleeve, \"outer\"_T");
  CHECK(records.front().size() == records.back().size());
}

TEST_CASE("a value is printed to the place that its bar leaves standing") {
  CHECK(with_bar({3.2141592, 0.012}) == "3.214 +- 0.012");
  CHECK(with_bar({-1.0, 10.0}) == "-1 +- 10");
  CHECK(with_bar({std::nan(""), 0.1}) == "NaN");
}
