// SPDX-License-Identifier: GPL-3.0-or-later
#include <cmath>
#include <initializer_list>

#include "materials/constants.hpp"
#include "solver/closed_form/displaced_loops.hpp"
#include "solver/closed_form/thick_coil.hpp"
#include "solver/measure/offset_force.hpp"
#include "tests/near.hpp"

namespace coilpull {
namespace {

constexpr double radius = 5e-3, from = 4e-3, to = 12e-3, J = 1.2;
const AxialCharge magnet{rectangle(0, radius, from, to), J};
const Loop loop{9e-3, 0};
constexpr double ampere_turns = 500;

FluxDensity of_loop(Point at) {
  const SourceField b = flux_density(loop, ampere_turns, at);
  return {b.br_T, b.bz_T};
}

/// A uniformly magnetised cylinder is a sheet of current K = J/mu0 round its side, a stack of loops.
double sheet_inductance(double z, double offset) {
  return displaced_mutual_inductance(loop, {radius, z}, offset);
}

}  // namespace

TEST_CASE("magnet beside the axis of a loop: the axial force is the difference of two mutual inductances") {
  // F_z = I K integral dM/dz dz = I K (M(top) - M(bottom))
  for (const double offset : {0.0, 1e-3, 3e-3, 20e-3}) {
    const double expected =
        ampere_turns * J / mu0 * (sheet_inductance(to, offset) - sheet_inductance(from, offset));
    CHECK(force_in_field(magnet, {offset, 0, 8e-3}, of_loop).axial_N == near(expected, 1e-9));
  }
}

TEST_CASE("magnet beside the axis of a loop: the side force is the slope of the mutual inductance") {
  // F_x = I K integral dM/dx dz: Simpson's rule along the magnet, central differences across
  for (const double offset : {1e-3, 3e-3, 20e-3}) {
    const int steps = 40;
    const double dx = 1e-5, h = (to - from) / steps;
    double sum = 0;
    for (int k = 0; k <= steps; ++k) {
      const double z = from + k * h, weight = (k == 0 || k == steps ? 1 : k % 2 == 1 ? 4 : 2) * h / 3;
      sum += weight * (sheet_inductance(z, offset + dx) - sheet_inductance(z, offset - dx)) / (2 * dx);
    }
    // Simpson leaves (h/9 mm)^4, the differences (dx/9 mm)^2; beside the loop both ends nearly cancel
    CHECK(force_in_field(magnet, {offset, 0, 8e-3}, of_loop).side_N ==
          near(ampere_turns * J / mu0 * sum, 2e-4));
  }
}

TEST_CASE("tilted magnet in an even field: no force, and the torque of a dipole") {
  const AxisymmetricField even = [](Point) { return FluxDensity{0, 0.01}; };
  const double tilt = 0.3, moment = J / mu0 * pi * radius * radius * (to - from);
  const OffsetForce seen = force_in_field(magnet, {2e-3, tilt, 8e-3}, even);
  CHECK(seen.torque_Nm == near(-moment * 0.01 * std::sin(tilt), 1e-9));  // the field turns it back
  CHECK(std::abs(seen.axial_N) < 1e-10);
  CHECK(std::abs(seen.side_N) < 1e-10);
}

TEST_CASE("a magnet with rounded edges has the force of the slope of its energy, offset and tilted") {
  // integral of J.B over the body, whose slopes are the force, for a ball: the field at its centre, since B
  // is harmonic: F = (4/3 pi a^3 J/mu0) times the slope of the component along J
  const double a = 3e-3;
  Outline ball;
  ball.edges = {{{0, 7e-3}, {0 + a, 10e-3}, Point{0, 10e-3}},
                {{a, 10e-3}, {0, 13e-3}, Point{0, 10e-3}},
                {{0, 13e-3}, {0, 7e-3}}};
  const double offset = 2e-3, tilt = 0.4, d = 1e-6;
  const auto along_J = [&](double x, double z) {
    const FluxDensity b = of_loop({std::abs(x), z});
    return std::sin(tilt) * (x < 0 ? -b.r : b.r) + std::cos(tilt) * b.z;
  };
  const double moment = 4.0 / 3 * pi * a * a * a * J / mu0;
  const OffsetForce seen = force_in_field({ball, J}, {offset, tilt, 10e-3}, of_loop);
  CHECK(seen.axial_N ==
        near(moment * (along_J(offset, 10e-3 + d) - along_J(offset, 10e-3 - d)) / (2 * d), 1e-6));
  CHECK(seen.side_N ==
        near(moment * (along_J(offset + d, 10e-3) - along_J(offset - d, 10e-3)) / (2 * d), 1e-6));
  const FluxDensity b = of_loop({offset, 10e-3});
  CHECK(seen.torque_Nm == near(moment * (std::cos(tilt) * b.r - std::sin(tilt) * b.z), 1e-6));
}

}  // namespace coilpull
