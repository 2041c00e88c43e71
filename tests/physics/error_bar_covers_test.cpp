// SPDX-License-Identifier: GPL-3.0-or-later
#include <doctest/doctest.h>

#include "tests/physics/bar_coverage.hpp"
#include "tests/physics/judged_devices.hpp"

using namespace coilpull;

TEST_CASE("the truth lies inside the error bars of four random devices, which reach their tolerance") {
  Coverage coverage;
  for (unsigned seed = 301; seed <= 304; ++seed) {
    const Device device = judged_device(seed, 1e-3);
    const ForceTable table = without_audit(device);
    CHECK(table.tolerance_reached <= device.tolerance);
    cover(device, table, coverage);
  }
  judge(coverage);
}
