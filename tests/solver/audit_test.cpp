// SPDX-License-Identifier: GPL-3.0-or-later
#include "solver/sweep/audit.hpp"

#include <doctest/doctest.h>

#include <algorithm>
#include <array>
#include <cmath>
#include <limits>

#include "solver/sweep/audited_rows.hpp"
#include "solver/sweep/five_points.hpp"
#include "solver/sweep/sweep.hpp"
#include "tests/near.hpp"
#include "tests/physics/devices.hpp"

using namespace coilpull;

namespace {

Device small_table() {
  Device device = tube_and_rod();
  device.displacements = {0, 10e-3, 20e-3};
  device.currents_A = {{-5}, {0}, {5}};
  return device;
}

ForceTable table_of(const Device& device) {
  SweepOptions options;
  options.audit = false;
  return sweep(device, options);
}

/// A table of invented numbers, largest in row `peak`.
ForceTable invented(std::size_t displacements, std::size_t sets, std::size_t peak) {
  ForceTable table;
  table.currents_per_displacement = sets;
  table.rows.resize(displacements * sets);
  for (std::size_t i = 0; i < table.rows.size(); ++i) table.rows[i].force_N = {i == peak ? -9.0 : 1.0, 0.1};
  return table;
}

std::size_t count(const std::vector<AuditedDisplacement>& places) {
  std::size_t rows = 0;
  for (const AuditedDisplacement& place : places) rows += place.rows.size();
  return rows;
}

}  // namespace

TEST_CASE("force and flux linkage are the slopes of the coenergy of independent meshes, within the bars") {
  const ForceTable table = sweep(small_table());
  CHECK(table.audit.left_out.empty());
  REQUIRE(table.audit.rows.size() == 5);
  for (const AuditedRow& row : table.audit.rows) {
    INFO("row " << row.row << ": force " << row.force_bars << ", linkage " << row.linkage_bars[0] << " bars");
    CHECK(row.why.empty());
    CHECK(row.force_bars < 1);
    CHECK(row.linkage_bars[0] < 1);
    CHECK(row.linkage_bars[0] > 0);  // not the table's own mesh, where the two agree to rounding
    // An audit less sure than the bars would find nothing.
    CHECK(row.force_N.error < 2 * table.rows[row.row].force_N.error);
    CHECK(row.linkage_Wb[0].error < 2 * table.rows[row.row].linkage_Wb[0].error);
  }
}

TEST_CASE("a force or a linkage that is five bars off is caught, in its row alone") {
  const Device device = small_table();
  ForceTable table = table_of(device);
  const std::vector<AuditedDisplacement> places = rows_to_audit(table);
  Measurement& peak = table.rows[places[0].rows[0]];
  peak.force_N.value += std::copysign(5 * peak.force_N.error, peak.force_N.value);
  Measured& linkage = table.rows[places[1].rows[0]].linkage_Wb[0];
  linkage.value += 5 * linkage.error;
  Crew crew(2, {});
  for (const AuditedRow& row : audit(device, table, crew).rows) {
    CHECK((row.force_bars > 1) == (row.row == places[0].rows[0]));
    CHECK((row.linkage_bars[0] > 1) == (row.row == places[1].rows[0]));
  }
}

TEST_CASE("the audit does not depend on the number of threads") {
  // Each thread's mesher has then made other meshes before: none of them may leave a trace.
  const Device device = small_table();
  const ForceTable table = table_of(device);
  Crew one(1, {}), three(3, {});
  const EnergyAudit a = audit(device, table, one), b = audit(device, table, three);
  REQUIRE(a.rows.size() == b.rows.size());
  for (std::size_t i = 0; i < a.rows.size(); ++i) {
    CHECK(a.rows[i].force_N.value == b.rows[i].force_N.value);  // to the last bit
    CHECK(a.rows[i].force_N.error == b.rows[i].force_N.error);
    CHECK(a.rows[i].linkage_Wb[0].value == b.rows[i].linkage_Wb[0].value);
  }
}

TEST_CASE("with several circuits the rows take turns, and every circuit has its turn") {
  Device device = small_table();
  device.coils.push_back(coil("trim", rectangle(9.5e-3, 14e-3, 7e-3, 18e-3), 200));
  device.circuits.push_back("trim");
  device.displacements = {10e-3};
  device.currents_A = {{5, 0}, {5, 2}, {0, -2}};
  const ForceTable table = sweep(device);
  int audited[] = {0, 0};
  for (const AuditedRow& row : table.audit.rows)
    for (std::size_t k = 0; k < 2; ++k) {
      if (std::isnan(row.linkage_bars[k])) continue;
      ++audited[k];
      CHECK(row.linkage_bars[k] < 1);
    }
  CHECK(audited[0] == 2);
  CHECK(audited[1] == 1);
}

TEST_CASE("a table of one row is audited in that row") {
  Device device = small_table();
  device.displacements = {10e-3};
  device.currents_A = {{5}};
  const ForceTable table = sweep(device);
  REQUIRE(table.audit.rows.size() == 1);
  CHECK(worst_bars(table.audit.rows[0]) < 1);
}

TEST_CASE("a row where nothing is magnetic agrees with its energy to nothing") {
  Device device = small_table();
  device.magnets.clear();
  device.cores.push_back(core("plunger", rectangle(0, 4.5e-3, -5e-3, 11e-3), FroehlichLaw{2.1, 500}));
  device.moving = {"plunger"};
  device.displacements = {10e-3};
  const ForceTable table = sweep(device);
  REQUIRE(table.audit.rows.size() == 3);
  for (const AuditedRow& row : table.audit.rows) {
    CHECK(row.why.empty());
    CHECK(row.force_bars < 1);
    // Far below the knee of the steel too: a step in current must not reach across it.
    CHECK(row.linkage_bars[0] < 1);
  }
}

TEST_CASE("without a circuit the force alone is audited, and the audit says so") {
  Device device = small_table();
  device.coils.clear();
  device.circuits.clear();
  device.displacements = {5e-3, 10e-3};
  device.currents_A = {{}};
  const ForceTable table = sweep(device);
  CHECK(table.audit.left_out == "flux linkages: there is no circuit");
  REQUIRE(table.audit.rows.size() == 2);
  for (const AuditedRow& row : table.audit.rows) CHECK(row.force_bars < 1);
}

TEST_CASE("where nothing moves the linkages alone are audited, and the audit says so") {
  Device device = small_table();
  device.moving.clear();
  device.displacements = {0};
  const ForceTable table = sweep(device);
  CHECK(table.audit.left_out == "the force: no part moves");
  REQUIRE(table.audit.rows.size() == 3);
  for (const AuditedRow& row : table.audit.rows) {
    CHECK(std::isnan(row.force_bars));
    CHECK(row.linkage_bars[0] < 1);
    CHECK(row.why.empty());
  }
}

TEST_CASE("an audit that is stopped or cannot mesh says so in its rows") {
  const Device device = small_table();
  const ForceTable table = table_of(device);
  Crew crew(1, {});
  for (const AuditedRow& row : audit(device, table, crew, [] { return true; }).rows) {
    CHECK(std::isnan(worst_bars(row)));
    CHECK(row.why.find("stopped") != std::string::npos);
  }
  MesherOptions missing;
  missing.program = "/nonexistent/mesher";
  Crew meshless(1, missing);
  for (const AuditedRow& row : audit(device, table, meshless).rows) {
    CHECK(std::isnan(worst_bars(row)));
    CHECK(row.why.find("/nonexistent/mesher") != std::string::npos);
  }
}

TEST_CASE("a row that Newton's method leaves has no audit and says so, and its neighbours have theirs") {
  const Device device = small_table();
  ForceTable table = table_of(device);
  const AuditedDisplacement place = rows_to_audit(table)[0];
  REQUIRE(place.rows.size() > 1);
  table.rows[place.rows[0]].currents_A = {1e200};  // its energy is no number
  Crew crew(1, {});
  for (const AuditedRow& row : audit(device, table, crew).rows) {
    CAPTURE(row.row);
    if (row.row == place.rows[0]) {
      CHECK(std::isnan(worst_bars(row)));
      CHECK(row.why == "force: Newton's method gave up; flux linkage: Newton's method gave up");
    } else {
      CHECK(row.why.empty());
      CHECK(worst_bars(row) < 1);
    }
  }
}

TEST_CASE("five rows are audited: the largest force, and others at other currents, at two displacements") {
  const std::vector<AuditedDisplacement> places = rows_to_audit(invented(51, 13, 36 * 13 + 12));
  REQUIRE(places.size() == 2);
  CHECK(places[0].displacement == 36);
  CHECK(places[1].displacement == 10);  // half the stroke away, round the end
  CHECK(places[0].rows == std::vector<std::size_t>{36 * 13 + 12, 36 * 13 + 3, 36 * 13 + 7});
  CHECK(places[1].rows == std::vector<std::size_t>{10 * 13 + 1, 10 * 13 + 7});
}

TEST_CASE("short tables give what they have, and rows that failed are passed over") {
  CHECK(count(rows_to_audit(invented(7, 1, 3))) == 5);
  CHECK(count(rows_to_audit(invented(1, 7, 3))) == 5);
  CHECK(count(rows_to_audit(invented(2, 2, 3))) == 4);
  CHECK(count(rows_to_audit(invented(2, 4, 0))) == 5);
  ForceTable table = invented(6, 2, 3);
  for (std::size_t i = 0; i < table.rows.size(); ++i)
    if (i != 3 && i != 4) table.rows[i].force_N.value = std::numeric_limits<double>::quiet_NaN();
  std::vector<std::size_t> rows;
  for (const AuditedDisplacement& place : rows_to_audit(table))
    rows.insert(rows.end(), place.rows.begin(), place.rows.end());
  CHECK(rows == std::vector<std::size_t>{3, 4});
  table.rows[3].force_N = table.rows[4].force_N = {std::numeric_limits<double>::quiet_NaN(), 0};
  CHECK(rows_to_audit(table).empty());
}

TEST_CASE("a five-point slope is exact up to the fourth power, and knows what the fifth costs") {
  const double h = 0.1, x[] = {-2 * h, -h, h, 2 * h};
  FivePoints quartic{h, {}, {}}, fifth{h, {}, {}};
  for (std::size_t k = 0; k < 4; ++k) {
    const double y = x[k];
    quartic.energy[k] = 3 + 7 * y + y * y - 5 * y * y * y + y * y * y * y;
    quartic.slope_elsewhere[k] = 7 + 2 * y - 15 * y * y + 4 * y * y * y;
    fifth.energy[k] = std::pow(y, 5);
    fifth.slope_elsewhere[k] = 5 * std::pow(y, 4);
  }
  CHECK(slope_of(quartic, 0).value == near(7, 1e-13));
  CHECK(slope_of(quartic, 0).error < 1e-13);
  CHECK(slope_of(quartic, 0.5).error == near(0.5, 1e-13));
  // The slope of y^5 at 0 is 0; the formula gives -4 h^4 (Abramowitz and Stegun, table 25.2: -h^4 f'''''/30).
  const double off = 4 * std::pow(h, 4);
  CHECK(slope_of(fifth, 0).value == near(-off, 1e-12));
  CHECK(slope_of(fifth, 0).error > 0.5 * off);
  CHECK(slope_of(fifth, 0).error < 2 * off);
}

TEST_CASE("meshes that disagree at random make the audit as unsure as they make it wrong") {
  const std::array<double, 4> random = {1e-3, -1e-3, 1e-3, -1e-3}, shared = {1e-3, 1e-3, 1e-3, 1e-3};
  const double wrong_by = std::abs(slope_of({0.1, random, {}}, 0).value);
  CHECK(order_error(random, 0.1) > wrong_by);
  CHECK(order_error(random, 0.1) < 3 * wrong_by);
  CHECK(order_error(shared, 0.1) < 1e-12 * wrong_by);  // what all four meshes share leaves the slope alone
}
