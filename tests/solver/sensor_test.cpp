// SPDX-License-Identifier: GPL-3.0-or-later
#include "solver/measure/sensor.hpp"

#include <doctest/doctest.h>

#include <cmath>

#include "materials/constants.hpp"
#include "tests/near.hpp"
#include "tests/solver/magnet_ball.hpp"

using namespace coilpull;

namespace {

/// Outside, a uniformly magnetised ball is a dipole: Jackson, Classical Electrodynamics, 3rd ed., sec. 5.10.
/// @returns  its components along x and z
FluxDensity dipole(double x, double y, double z) {
  const double d = std::sqrt(x * x + y * y + z * z);
  const double strength = ball_remanence * std::pow(ball_radius, 3) / 3;  // mu0 m / (4 pi)
  return {strength * 3 * x * z / std::pow(d, 5), strength * (3 * z * z / (d * d) - 1) / std::pow(d, 3)};
}

/// Its mean over a disc normal to z, by so many rings and sectors that 1e-5 of it is sure.
FluxDensity mean_of_dipole(Point at, double face_radius) {
  constexpr int rings = 100, sectors = 200;
  FluxDensity mean{0, 0};
  for (int i = 0; i < rings; ++i)
    for (int k = 0; k < sectors; ++k) {
      const double rho = face_radius * std::sqrt((i + 0.5) / rings), turn = 2 * pi * (k + 0.5) / sectors;
      const double x = at.r + rho * std::cos(turn), y = rho * std::sin(turn);
      const FluxDensity b = dipole(x, y, at.z);
      mean.r += b.r / (rings * sectors);
      mean.z += b.z / (rings * sectors);
    }
  return mean;
}

}  // namespace

TEST_CASE("a sensor reads the mean of a ball's dipole field over its face, on the axis and beside it") {
  const Field field = field_of_ball();
  for (const Point at : {Point{0, 0.014}, Point{0.012, 0.008}, Point{0.002, -0.015}, Point{0.013, 0}})
    for (const double face_radius : {0.0, 0.001, 0.002}) {
      INFO("r = " << at.r << ", z = " << at.z << ", face " << face_radius);
      const FluxDensity seen = sensor_field(field, at, face_radius), is = mean_of_dipole(at, face_radius);
      const double size = std::hypot(is.r, is.z);
      // pointwise error of B beside the ball on the default mesh: up to 1.1e-3; a face of 2 mm changes B by
      // 2e-2
      CHECK(std::abs(seen.z - is.z) < 3e-3 * size);
      CHECK(std::abs(seen.r - is.r) < 3e-3 * size);
    }
}
