// SPDX-License-Identifier: GPL-3.0-or-later
#include <doctest/doctest.h>

#include "solver/device/approximate_force.hpp"
#include "tests/physics/bar_coverage.hpp"
#include "tests/physics/devices.hpp"
#include "tests/physics/dice.hpp"

using namespace coilpull;

namespace {

/// Coils and magnets of recoil permeability 1, no steel: current sheets give the force exactly.
Device random_device_in_air(unsigned seed) {
  Dice dice(seed);
  Device device;
  const double size = dice.log_between(3e-3, 0.1);
  const double radius = size * dice.between(0.3, 0.8), length = size * dice.between(0.3, 1.5),
               gap = size * dice.log_between(0.01, 0.3);
  device.coils = {coil("fixed", rectangle(radius, radius + size * dice.between(0.1, 0.5), 0, length),
                       std::floor(dice.between(50, 800)))};
  device.circuits = {"fixed"};
  const double amperes = dice.log_between(0.1, 2) * size / (4e-7 * device.coils[0].turns);
  if (dice.chance(0.35)) {
    const double bore = radius * dice.between(0.2, 0.9);
    device.coils.push_back(coil("moved",
                                rectangle(bore, bore + size * dice.between(0.1, 0.6), length + gap,
                                          length + gap + size * dice.between(0.1, 0.8)),
                                std::floor(dice.between(50, 800))));
    device.circuits.push_back("moved");
    device.currents_A = {{-amperes, amperes}, {0.3 * amperes, amperes}, {amperes, amperes}};
    device.displacements = {0, 0.1 * size, 0.3 * size, 0.6 * size, size};
  } else {
    const double outer = radius - gap, inner = dice.chance(0.5) ? 0 : outer * dice.between(0.2, 0.8);
    if (outer < 0.1 * radius) return random_device_in_air(seed + 10007);
    device.magnets = {magnet("moved", rectangle(inner, outer, 0, size * dice.between(0.1, 1)), 0,
                             dice.between(0.2, 1.4), 1)};
    device.currents_A = {{-amperes}, {0.5 * amperes}, {amperes}};
    device.displacements = {-length, -0.4 * length, 0.2 * length, 0.5 * length, length};
  }
  device.moving = {"moved"};
  return device;
}

}  // namespace

TEST_CASE("the exact force lies inside the error bars of coils and magnets in air") {
  Coverage coverage;
  for (unsigned seed = 501; seed <= 512; ++seed) {
    const Device device = random_device_in_air(seed);
    const ForceTable table = without_audit(device);
    INFO("seed " << seed);
    CHECK(table.tolerance_reached <= device.tolerance);
    std::vector<double> bars, errors;
    for (const Measurement& row : table.rows) {
      // Gauss quadrature over thick coils leaves less than 1e-8 of the force.
      const double exact =
          approximate_force(device, Approximation::current_sheets, row.displacement).at(row.currents_A);
      bars.push_back(row.force_N.error);
      errors.push_back(row.force_N.value - exact);
    }
    coverage.add(bars, errors);
  }
  judge(coverage, 5);
}
