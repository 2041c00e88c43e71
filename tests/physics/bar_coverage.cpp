// SPDX-License-Identifier: GPL-3.0-or-later
#include "tests/physics/bar_coverage.hpp"

#include <doctest/doctest.h>

#include <algorithm>
#include <cmath>
#include <sstream>
#include <vector>

#include "solver/refine/order_pair.hpp"
#include "solver/refine/resolution_for.hpp"
#include "solver/sweep/sweep.hpp"
#include "tests/physics/devices.hpp"
#include "tests/physics/random_device.hpp"

using namespace coilpull;

namespace {

struct Coverage {
  std::vector<double> bar_over_error;  ///< every usable row
  int rows = 0, covered = 0, devices_below_nine_tenths = 0;
  double worst_miss = 0;  ///< |error| / bar
  int histogram[7] = {};  ///< |error| / bar below 1/32, 1/16, 1/8, 1/4, 1/2, 1, above
};

/// Bars of a plain table at the default tolerance against a mesh whose corners are fifty times finer: its own
/// error is below a fiftieth of the tolerance (corner error falls like size^1.5).
void cover(unsigned seed, Coverage& coverage) {
  Device device = random_device(seed).device;
  const double most = device.currents_A[2][0];
  device.currents_A = {{-most}, {-most / 3}, {0}, {most / 3}, {most}};
  const ForceTable table = sweep(device);
  Resolution resolution = resolution_for(device.tolerance / 50);
  resolution.fineness *= 1.3;
  PairSolver truth(mesh_of(device, 0, resolution), device, 3, resolution.outer_ratio);
  int covered = 0;
  for (std::size_t i = 0; i < table.rows.size(); ++i) {
    const OrderPair pair = truth.solve(amperes(device.currents_A[i]));
    INFO("seed " << seed << ", row " << i << ": " << table.rows[i].why);
    REQUIRE(pair.usable);
    REQUIRE(std::isfinite(table.rows[i].force_N.value));
    const double bar = table.rows[i].force_N.error;
    const double error = std::abs(table.rows[i].force_N.value - pair.force_high_N), miss = error / bar;
    coverage.bar_over_error.push_back(bar / std::max(error, 1e-300));
    coverage.worst_miss = std::max(coverage.worst_miss, miss);
    covered += miss <= 1;
    int slot = 0;
    for (double edge = 1.0 / 32; slot < 6 && miss > edge; edge *= 2) ++slot;
    ++coverage.histogram[slot];
  }
  coverage.rows += static_cast<int>(table.rows.size());
  coverage.covered += covered;
  coverage.devices_below_nine_tenths += covered < 0.9 * static_cast<double>(table.rows.size());
}

}  // namespace

namespace coilpull {

void judge_bars(unsigned first, unsigned last) {
  Coverage coverage;
  for (unsigned seed = first; seed <= last; ++seed) cover(seed, coverage);
  std::sort(coverage.bar_over_error.begin(), coverage.bar_over_error.end());
  const double median = coverage.bar_over_error[coverage.bar_over_error.size() / 2];
  std::ostringstream text;
  text << "|error| / bar below 1/32, 1/16, 1/8, 1/4, 1/2, 1, above:";
  for (const int count : coverage.histogram) text << ' ' << count;
  MESSAGE(text.str());
  MESSAGE(coverage.covered << " of " << coverage.rows << " rows inside their bar, worst "
                           << coverage.worst_miss << " bars, median bar / |error| " << median);
  CHECK(coverage.covered >= 0.97 * coverage.rows);
  CHECK(coverage.devices_below_nine_tenths == 0);
  CHECK(coverage.worst_miss <= 3);
}

}  // namespace coilpull
