// SPDX-License-Identifier: GPL-3.0-or-later
#include <doctest/doctest.h>
#include <unistd.h>

#include <cmath>
#include <cstdlib>
#include <filesystem>
#include <string>

#include "solver/sweep/sweep.hpp"
#include "tests/physics/devices.hpp"

using namespace coilpull;
namespace fs = std::filesystem;

namespace {

std::size_t size_of(const fs::path& file) { return fs::exists(file) ? fs::file_size(file) : 0; }

}  // namespace

TEST_CASE("where no finer mesh can be made, the coarser rows stand, marked, and nothing is tried for ever") {
  Device device = tube_and_rod();
  device.displacements.clear();
  for (int i = 0; i < 9; ++i) device.displacements.push_back(i * 3e-3);
  device.currents_A = {{5}};
  SweepOptions options;
  options.audit = false;
  options.threads = 1;
  device.tolerance = 1e-2;
  const ForceTable coarse = sweep(device, options);

  const fs::path refused = fs::temp_directory_path() / ("coilpull_refused_" + std::to_string(getpid()));
  setenv("STAND_IN_COUNT", refused.c_str(), 1);
  options.mesher.program = STAND_IN_SMALL_ONLY;
  // 1e-6: the anchors fail while they learn the sizes. 4e-5: when all are meshed by the sizes they promise.
  SUBCASE("while sizes are learnt") { device.tolerance = 1e-6; }
  SUBCASE("when they are known") { device.tolerance = 4e-5; }
  const ForceTable table = sweep(device, options);
  CHECK(table.tolerance_reached > device.tolerance);
  for (std::size_t i = 0; i < table.rows.size(); ++i) {
    CHECK(table.rows[i].status == RowStatus::tolerance_not_met);
    CHECK(std::abs(table.rows[i].force_N.value - coarse.rows[i].force_N.value) <
          table.rows[i].force_N.error + coarse.rows[i].force_N.error);
  }
  // A mesh is tried in four ways. Five anchors fail once each, then every displacement at most once.
  CHECK(size_of(refused) >= 4);
  CHECK(size_of(refused) <= 4 * (5 + 9));
  fs::remove(refused);
  unsetenv("STAND_IN_COUNT");
}
