// SPDX-License-Identifier: GPL-3.0-or-later
#include "apps/input/measured_file.hpp"

#include "tests/near.hpp"

using namespace coilpull;

namespace {

const KnownNames one_circuit = {{"drive"}, {std::nullopt}, {"exit"}};
const KnownNames two_circuits = {{"drive", "hold_in"}, {std::nullopt, std::nullopt}};

MeasuredFile read(const std::string& text, const KnownNames& names = one_circuit,
                  const WantedKinds& wanted = {}) {
  return read_measured(read_csv_text(text, "mine.csv"), names, wanted);
}

std::string trouble(const std::string& text, const KnownNames& names = one_circuit,
                    const WantedKinds& wanted = {}) {
  try {
    read(text, names, wanted);
  } catch (const BadCsv& bad) {
    return bad.what();
  }
  return "none";
}

}  // namespace

TEST_CASE("headers in many spellings name the same quantities") {
  for (const char* header :
       {"displacement_mm,current_drive_A,force_N", "Displacement [mm],Current (A),Force [N]",
        "position in mm,I/A,F/N", "shift mm,current drive [A],force in N"}) {
    CAPTURE(header);
    const MeasuredFile file = read(std::string(header) + "\n4,1.5,2\n");
    REQUIRE(file.columns.size() == 1);
    CHECK(file.rows[0].displacement == near(0.004, 1e-15));
    CHECK(file.rows[0].currents_A == std::vector<double>{1.5});
    CHECK(file.rows[0].results[0]->value == 2);
    CHECK_FALSE(file.rows[0].results[0]->uncertainty.has_value());
    CHECK(file.not_read.empty());
  }
}

TEST_CASE(
    "a gram-force is the weight of a gram at 9.80665 m/s2, an inch 25.4 mm, a pound-force 4.4482216152605 "
    "N") {
  // 9.80665: 3rd CGPM 1901; the pound-force follows from it and from 0.45359237 kg. Exact; rounding only.
  const char* const rows = "\n1,1000,1000\n";
  CHECK(read(std::string("displacement [in];current [mA];force [gram-force]\n1;1000;1000"))
            .rows[0]
            .results[0]
            ->value == near(9.80665, 1e-15));
  const MeasuredFile file = read(std::string("displacement_in,current_mA,force_gf") + rows);
  CHECK(file.rows[0].displacement == near(0.0254, 1e-15));
  CHECK(file.rows[0].currents_A[0] == near(1, 1e-15));
  CHECK(read("displacement_mm,current_A,force_lbf\n1,0,1\n").rows[0].results[0]->value ==
        near(4.4482216152605, 1e-15));
  CHECK(read("displacement_mm,current_A,force (kgf)\n1,0,1\n").rows[0].results[0]->value ==
        near(9.80665, 1e-15));
}

TEST_CASE("circuits are found by name, also when the name looks like a unit") {
  const MeasuredFile file =
      read("displacement_mm,current_hold_in_A,current_drive_mA,force_N\n1,2,3,4\n", two_circuits);
  CHECK(file.rows[0].currents_A[0] == near(0.003, 1e-15));
  CHECK(file.rows[0].currents_A[1] == 2);
}

TEST_CASE("a circuit whose current never changes needs no column") {
  const MeasuredFile file =
      read("displacement_mm,current_A,force_N\n1,2,4\n", {{"a", "b"}, {std::nullopt, 7.0}});
  CHECK(file.rows[0].currents_A == std::vector<double>{2, 7});
}

TEST_CASE("fields and inductances are read where they can be used, empty cells are left out") {
  const MeasuredFile file = read(
      "displacement_mm,current_A,force_N,force_uncertainty_mN,B_z_exit_mT,inductance [mH],uncertainty of B "
      "at exit (mT)\n"
      "1,0,2,50,,0.4,\n2,0,,,12,,1\n",
      one_circuit, {true, true, true});
  REQUIRE(file.columns.size() == 3);
  CHECK(*file.rows[0].results[0]->uncertainty == near(0.05, 1e-15));
  CHECK_FALSE(file.rows[0].results[1].has_value());
  CHECK(file.rows[0].results[2]->value == near(4e-4, 1e-15));
  CHECK(file.rows[1].results[1]->value == near(0.012, 1e-15));
  CHECK(*file.rows[1].results[1]->uncertainty == near(1e-3, 1e-15));
  CHECK(*file.rows[1].results[1]->uncertainty == near(1e-3, 1e-15));
}

TEST_CASE("a table of the program itself can be laid over another: force_N is its force") {
  const MeasuredFile file = read(
      "displacement_mm,clearance_mm,current_drive_A,force_N,force_numerical_error_N,force_current_sheets_N,"
      "status\n"
      "1,1,0,2,0.1,3,ok\n");
  CHECK(file.rows[0].results[0]->value == 2);
  CHECK_FALSE(file.rows[0].results[0]->uncertainty.has_value());
}

TEST_CASE("columns that are missing, doubled or without a unit are told") {
  CHECK(trouble("x,current_A,force_N\n1,2,3\n") ==
        "mine.csv:1: no column of displacement; there is: x, current_A, force_N.\n  Name one with its unit "
        "in the "
        "header, for example \"displacement_mm\".");
  CHECK(trouble("displacement_mm,force_N\n1,2\n").find("mine.csv:1: no column of the current in drive") == 0);
  CHECK(trouble("displacement_mm,current_A,pull\n1,2,3\n").find("mine.csv:1: no column of force") == 0);
  CHECK(trouble("displacement_mm,current_A,force\n1,2,3\n") ==
        "mine.csv:1: force: no unit in the header; allowed: N, mN, kN, gf, kgf, lbf.\n  Write for example "
        "\"force [N]\".");
  CHECK(trouble("displacement_mm,current_A,force_N,F [mN]\n1,2,3,4\n")
            .find("mine.csv:1: F [mN]: says again what column \"force_N\" says.") == 0);
  CHECK(trouble("displacement_mm,current_A,force_N\n1,,3\n")
            .find("mine.csv:2: current_A: the cell is empty.") == 0);
  CHECK(trouble("displacement_mm,current_A,force_N,force_error_N\n1,0,3,-1\n")
            .find("mine.csv:2: force_error_N = -1: an uncertainty is above 0.") == 0);
  CHECK(trouble("displacement_mm,current_A,B_z_exot_T\n1,0,3\n", one_circuit, {true, true, false}) ==
        "mine.csv:1: B_z_exot_T: no sensor is called exot.\n  Did you mean \"exit\"?");
}
