// SPDX-License-Identifier: GPL-3.0-or-later
#include <doctest/doctest.h>

#include "tests/physics/bar_coverage.hpp"
#include "tests/physics/judged_devices.hpp"

using namespace coilpull;

namespace {

void judge_sixty(double tolerance) {
  Coverage coverage;
  int reached = 0;
  for (unsigned seed = 461; seed <= 520; ++seed) {
    INFO("seed " << seed);
    const Device device = judged_device(seed, tolerance);
    const ForceTable table = without_audit(device);
    CHECK(table.tolerance_reached <= tolerance);
    reached += table.tolerance_reached <= tolerance;
    const int below = coverage.devices_below_nine_tenths;
    cover(device, table, coverage);
    if (coverage.devices_below_nine_tenths > below) MESSAGE("fewer than nine tenths inside: seed " << seed);
  }
  MESSAGE("reached in " << reached << " of 60 devices");
  judge(coverage);
}

}  // namespace

TEST_CASE("sixty random devices reach 1 %, the truth inside their error bars") { judge_sixty(1e-2); }
TEST_CASE("sixty random devices reach 0.1 %, the truth inside their error bars") { judge_sixty(1e-3); }
TEST_CASE("sixty random devices reach 0.01 %, the truth inside their error bars") { judge_sixty(1e-4); }
