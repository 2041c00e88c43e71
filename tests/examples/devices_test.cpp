// SPDX-License-Identifier: GPL-3.0-or-later
// The devices of data/devices, read as a person's file and solved at a few points. What is checked follows
// from symmetry, from a bound or from the direction of a pull, never from an earlier run.
#include <algorithm>
#include <cmath>
#include <filesystem>
#include <string>
#include <vector>

#include "apps/device_file/read_device_file.hpp"
#include "materials/constants.hpp"
#include "solver/motion/fit_coenergy.hpp"
#include "solver/sweep/sweep.hpp"
#include "tests/near.hpp"

namespace coilpull {

namespace {

const std::filesystem::path devices = std::filesystem::path(COILPULL_SOURCE_DIR) / "data/devices";

struct Reduced {
  std::vector<double> displacements_mm;
  std::vector<std::vector<double>> currents_A;
};

ForceTable solved(const std::string& file, const Reduced& points) {
  Device device = read_device_file(devices / file);
  device.displacements.clear();
  for (const double mm : points.displacements_mm) device.displacements.push_back(mm / 1000);
  device.currents_A = points.currents_A;
  const ForceTable table = sweep(device);
  for (const AuditedRow& row : table.audit.rows) {
    INFO(file << ", row " << row.row << " " << row.why);
    CHECK(worst_bars(row) < 1);  // its energy agrees
  }
  return table;
}

const Measurement& at(const ForceTable& table, std::size_t displacement, std::size_t set) {
  return table.rows[displacement * table.currents_per_displacement + set];
}

/// Both bars together: what two values that ought to be equal may differ by.
double bars(const Measured& a, const Measured& b) { return a.error + b.error; }

void check_all_ok(const ForceTable& table) {
  for (const Measurement& row : table.rows) {
    INFO(row.why);
    CHECK(row.status == RowStatus::ok);
  }
}

}  // namespace

TEST_CASE("every device file has its test here") {
  std::vector<std::string> files;
  for (const auto& entry : std::filesystem::directory_iterator(devices))
    if (entry.path().extension() == ".toml") files.push_back(entry.path().filename().string());
  std::sort(files.begin(), files.end());
  CHECK(files == std::vector<std::string>{"01_tube_pusher.toml", "02_latch.toml", "03_stage_row.toml",
                                          "04_row_stage.toml"});
}

TEST_CASE("tube pusher: the force turns round in the mirror at the middle of the sleeve, at 25 mm") {
  const ForceTable table = solved("01_tube_pusher.toml", {{13, 25, 37}, {{0}, {6}, {-6}}});
  check_all_ok(table);
  for (std::size_t set = 0; set < 3; ++set) {
    const Measured before = at(table, 0, set).force_N, after = at(table, 2, set).force_N;
    CHECK(std::fabs(before.value + after.value) < bars(before, after));
    CHECK(std::fabs(at(table, 1, set).force_N.value) < at(table, 1, set).force_N.error);
  }
  // Without current the steel draws the magnet in. A current whose field points along the magnetisation makes
  // the sleeve a magnet with its poles beside like poles: it pushes back; the opposite one draws harder.
  const double bar = at(table, 0, 0).force_N.error;
  CHECK(at(table, 0, 0).force_N.value > bar);
  CHECK(at(table, 0, 1).force_N.value < at(table, 0, 0).force_N.value - 2 * bar);
  CHECK(at(table, 0, 2).force_N.value > at(table, 0, 0).force_N.value + 2 * bar);
}

TEST_CASE("latch: holds less than Br^2 A / (2 mu0), lets go against the current, holds less at a wider gap") {
  const ForceTable table = solved("02_latch.toml", {{0.05, 0.1, 4}, {{-12}, {0}, {4}}});
  check_all_ok(table);
  // The gap's flux density stays below the remanence when only the magnet drives it, and the pull on a face
  // is at most B^2 A / (2 mu0); fringing onto the pole's flank and the flange adds little here. At least a
  // quarter: steel on both sides carries more than half of the remanence through a gap of 1 % of the magnet.
  const double bound = 1.2 * 1.2 * pi * 0.006 * 0.006 / (2 * mu0);
  const double hold = -at(table, 0, 1).force_N.value;
  CHECK(hold < bound);
  CHECK(hold > bound / 4);
  CHECK(at(table, 0, 0).force_N.value > 0);
  CHECK(-at(table, 0, 2).force_N.value > hold);
  for (std::size_t d = 0; d < 2; ++d)
    CHECK(at(table, d, 1).force_N.value < at(table, d + 1, 1).force_N.value);
  CHECK(at(table, 0, 1).clearance == near(5e-5, 1e-9));
}

TEST_CASE("stage row: with the ends changed over F(-z) = -F(z), and their linkages change places") {
  const Reduced points{{-27.5, -12.5, 12.5, 27.5},
                       {{0, 0, 0}, {12, 0, 0}, {-12, 0, 0}, {0, 0, 12}, {0, 0, -12}}};
  const ForceTable table = solved("03_stage_row.toml", points);
  check_all_ok(table);
  const std::size_t in_mirror[] = {0, 3, 4, 1, 2};
  for (std::size_t k = 0; k < 10; ++k) {
    const std::size_t d = k / 5, set = k % 5;
    const Measurement &left = at(table, d, set), &right = at(table, 3 - d, in_mirror[set]);
    INFO("displacement " << d << ", set " << set);
    CHECK(std::fabs(left.force_N.value + right.force_N.value) < bars(left.force_N, right.force_N));
    for (std::size_t circuit = 0; circuit < 3; ++circuit) {
      const Measured a = left.linkage_Wb[circuit], b = right.linkage_Wb[2 - circuit];
      CHECK(std::fabs(a.value - b.value) < bars(a, b));
    }
  }
  // As the file says: held without current, let go by a positive one, sent on from the gap by a negative one.
  CHECK(at(table, 0, 0).force_N.value < -at(table, 0, 0).force_N.error);
  CHECK(at(table, 0, 1).force_N.value > at(table, 0, 1).force_N.error);
  CHECK(at(table, 1, 2).force_N.value > at(table, 1, 2).force_N.error);
}

TEST_CASE("row stage: draws the plunger to its middle as hard from either side, and not without current") {
  const ForceTable table = solved("04_row_stage.toml", {{-12, 0, 12, 40}, {{0}, {30}}});
  check_all_ok(table);
  const Measured left = at(table, 0, 1).force_N, right = at(table, 2, 1).force_N;
  CHECK(left.value > left.error);
  CHECK(std::fabs(left.value + right.value) < bars(left, right));
  CHECK(std::fabs(at(table, 1, 1).force_N.value) < at(table, 1, 1).force_N.error);
  CHECK(std::fabs(at(table, 0, 0).force_N.value) <= at(table, 0, 0).force_N.error);
  // the table reaches far enough for a row: at its end a hundredth of the pull is left
  CHECK(std::fabs(at(table, 3, 1).force_N.value) < 0.01 * left.value);
}

TEST_CASE("one coenergy function gives force and linkage of every device within the bars of their rows") {
  // The whole stroke, fewer currents; of the row of stages the circuit in the middle, the others off.
  struct Case {
    std::string file;
    std::vector<std::vector<double>> currents_A;
    std::size_t circuit;
  };
  for (const Case& c : {Case{"01_tube_pusher.toml", {{-6}, {0}, {6}}, 0},
                        Case{"02_latch.toml", {{-12}, {-8}, {-4}, {0}, {4}}, 0},
                        Case{"03_stage_row.toml", {{0, -12, 0}, {0, 0, 0}, {0, 12, 0}}, 1}}) {
    Device device = read_device_file(devices / c.file);
    device.currents_A = c.currents_A;
    SweepOptions options;
    options.audit = false;
    std::vector<CoenergyRow> rows;
    for (const Measurement& row : sweep(device, options).rows)
      rows.push_back({row.displacement, row.currents_A[c.circuit], row.force_N, row.linkage_Wb[c.circuit],
                      row.coenergy_J});
    const CoenergyFit fit = fit_coenergy(rows);
    INFO(c.file << ": force off by " << fit.force.bars << " bars, linkage by " << fit.linkage.bars);
    CHECK(fit.within_bars());
    CHECK(fit.rows_left_out == 0);
  }
}

}  // namespace coilpull
