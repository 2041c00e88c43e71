// SPDX-License-Identifier: GPL-3.0-or-later
#include <doctest/doctest.h>

#include "apps/exchange/coenergy_table.hpp"
#include "apps/input/csv_file.hpp"
#include "apps/input/force_table_file.hpp"
#include "tests/apps/scratch_folder.hpp"

using namespace coilpull;

namespace {

std::string trouble(const std::string& text) {
  try {
    const CsvFile file = read_csv_text(text, "mine.csv");
    for (const CsvRecord& record : file.records)
      for (std::size_t i = 0; i < file.header.cells.size(); ++i) file.number(record, i);
  } catch (const BadCsv& bad) {
    return bad.what();
  }
  return "none";
}

}  // namespace

TEST_CASE("a table reads the same with commas, semicolons or tabs, comments, and any ends of lines") {
  for (const char* text :
       {"x,f\n1.5,-2e-3\n3,4\n", "\xEF\xBB\xBFx;f\r\n1,5;-0,002\r\n3;4", "x\tf\n1.5\t-0.002\n\n3\t4\t\n",
        "# from the bench\n%again\n \"x\" , f\n1.5, \"-.002\"\n3,+4\n,\n"}) {
    const CsvFile file = read_csv_text(text, "mine.csv");
    REQUIRE(file.records.size() == 2);
    CHECK(file.column("x") == 0);
    CHECK(file.number(file.records[0], 0) == 1.5);
    CHECK(file.number(file.records[0], 1) == -0.002);
    CHECK(file.number(file.records[1], 1) == 4.0);
  }
}

TEST_CASE("a quoted cell holds separators, quotes and ends of lines, and lines are still counted right") {
  const CsvFile file = read_csv_text("name,f\n\"a, \"\"b\"\"\nc\",1\nd,2\n", "mine.csv");
  REQUIRE(file.records.size() == 2);
  CHECK(file.cell(file.records[0], 0) == "a, \"b\"\nc");
  CHECK(file.records[1].line == 4);
}

TEST_CASE("an empty cell is no number and no zero, a typographic minus is a minus") {
  const CsvFile file = read_csv_text(
      "x,f\n\xE2\x88\x92"
      "2,\n",
      "mine.csv");
  CHECK(file.number(file.records[0], 0) == -2.0);
  CHECK_FALSE(file.number(file.records[0], 1).has_value());
}

TEST_CASE("a cell is found by the name of its column, and a name or number that is not there is told") {
  const CsvFile file = read_csv_text("# a source, with commas\nx, f \n1,-2e-3\n3,\n", "mine.csv");
  CHECK(file.number_at(0, "f") == -0.002);
  CHECK(file.text_at(1, "x") == "3");
  CHECK_THROWS_WITH_AS(file.number_at(1, "f"), "mine.csv:4: f: is empty.\n  A number is needed here.",
                       BadCsv);
  CHECK_THROWS_WITH_AS(
      file.text_at(0, "z"),
      "mine.csv:2: there is no column z.\n  Add it, or correct its name in the line of headers.", BadCsv);
}

TEST_CASE("what a file of numbers gets wrong is told with file, line, column and value") {
  CHECK(trouble("x,force [N]\n1,2\n1,3..2\n") ==
        "mine.csv:3: force [N] = 3..2: is no number.\n  Write it like 12.5, -0.3 or 1e-3, without a unit and "
        "without "
        "marks between thousands; leave the cell empty for none.");
  CHECK(trouble("x;f\n1.234,5;2\n").find("mine.csv:2: x = 1.234,5: is no number.") == 0);
  CHECK(trouble("x,f\n1,nan\n").find("mine.csv:2: f = nan: is no number.") == 0);
  CHECK(trouble("x,f\n1,5,2,5\n") ==
        "mine.csv:2: this line has 4 cells, the header has 2; cells are parted by commas.\n  With decimal "
        "commas, part "
        "the cells by semicolons. An empty cell still needs its separator.");
  CHECK(trouble("x,f\n\"1,2\n").find("mine.csv:2: a quote is opened and never closed.") == 0);
  CHECK(trouble("x,f\n\"1\"2,3\n").find("mine.csv:2: something stands behind the closing quote") == 0);
  CHECK(trouble("x,f\n").find("mine.csv: there is a line of headers and no row below it.") == 0);
  CHECK(trouble("# only this\n").find("mine.csv: there is nothing in it.") == 0);
  CHECK_THROWS_AS(read_csv_file("no_such_file.csv"), BadCsv);
}

TEST_CASE("a file at its limits is read, and one byte, row or column more is refused with the limit") {
  const ScratchFolder scratch;
  const CsvLimits limits{1u << 20, 5, 3};
  const auto said = [&](const std::string& text) {
    try {
      read_csv_file(scratch.write("mine.csv", text), limits);
    } catch (const BadCsv& bad) {
      return scratch.without_path(bad.what());
    }
    return std::string("read");
  };
  const std::string five = "a,b,c\n1,2,3\n1,2,3\n\n1,2,3\n1,2,3\n1,2,3\n",
                    filler((1u << 20) - five.size() - 1, '#');
  CHECK(said(five) == "read");
  CHECK(said(five + filler + "\n") == "read");
  CHECK(
      said(five + filler + "#\n") ==
      "mine.csv: is larger than 1 MiB.\n  Name a CSV file of at most a million short rows: leave out rows or "
      "columns.");
  CHECK(said(five + "1,2,3\n").find("mine.csv:8: there are more than 5 rows.") == 0);
  CHECK(said("a,b,c,d\n1,2,3,4\n").find("mine.csv:1: this line has more than 3 cells.") == 0);
  CHECK(said("a,b,c\n1,2,3,4\n").find("mine.csv:2: this line has more than 3 cells.") == 0);
}

TEST_CASE("rows along a diagonal are no grid and are refused before they become one") {
  const auto said = [&](int rows) {
    std::string text =
        "displacement_mm,current_a_A,force_N,force_numerical_error_N,flux_linkage_a_Wb,"
        "flux_linkage_numerical_error_a_Wb,coenergy_J\n";
    for (int k = 0; k < rows; ++k) text += std::to_string(k) + "," + std::to_string(k) + ",1,0.1,1,0.1,1\n";
    const CsvFile file = read_csv_text(text, "diagonal.csv");
    std::string words;
    for (const auto read : {+[](const CsvFile& csv) { read_force_table(csv); },
                            +[](const CsvFile& csv) { rows_of_circuit(csv, ""); }})
      try {
        read(file);
        words += "read ";
      } catch (const BadCsv& bad) {
        words += std::string(bad.what()).substr(0, 100) + " ";
      }
    return words;
  };
  CHECK(said(50) == "read read ");
  const std::string refused =
      "diagonal.csv: its 3000 rows are no grid: 3000 different displacements with 3000 different sets of cu ";
  CHECK(said(3000) == refused + refused);
}
