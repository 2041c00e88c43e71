// SPDX-License-Identifier: GPL-3.0-or-later
#include <doctest/doctest.h>

#include <cmath>

#include "materials/constants.hpp"
#include "solver/measure/volume_samples.hpp"
#include "tests/near.hpp"
#include "tests/physics/devices.hpp"

using namespace coilpull;

namespace {

constexpr double radius = 0.01;

Field field_of_ball(const SoftLaw& law, double shift_A_per_m, double background_T) {
  Device device;
  const Point low{0, -radius}, high{0, radius};
  device.cores.push_back({"ball", {{{low, high, Point{0, 0}}, {high, low}}}, law, "invented", shift_A_per_m});
  device.displacements = {0};
  device.background_bz_T = background_T;
  return field_without_current(device);
}

double mean_bz(const Field& field) {
  return mean(volume_samples(field, 0, [](double, double b_z) { return b_z; }));
}

/// B of  h(B) - Hc = (3 B0 - B) / (2 mu0): the field in a ball is uniform, H = (3 B0 - B)/(2 mu0) from
/// H = H0 - M/3, M = B/mu0 - H (Jackson, Classical Electrodynamics, 3rd ed., sec. 5.11). By bisection.
double exact_bz(const SoftLaw& law, double shift, double b0) {
  double low = 0, high = 3;
  for (int i = 0; i < 100; ++i) {
    const double b = 0.5 * (low + high);
    (evaluate(law, b).h - shift - (3 * b0 - b) / (2 * mu0) > 0 ? high : low) = b;
  }
  return low;
}

}  // namespace

TEST_CASE(
    "a ball whose curve is shifted by its coercive field keeps the flux density of the scalar equation") {
  const SoftLaw law = FroehlichLaw(1.9, 4000);  // hardened steel, invented numbers
  for (const double shift : {2500.0, 50000.0})
    for (const double b0 : {0.0, 0.2}) {
      INFO("shift " << shift << " A/m, background " << b0 << " T");
      // Mean over the ball: a hundred times nearer than points at the surface of the default mesh.
      CHECK(mean_bz(field_of_ball(law, shift, b0)) == near(exact_bz(law, shift, b0), 2e-5));
    }
}

TEST_CASE("a shift the other way leaves the opposite field, and none leaves none") {
  const SoftLaw law = FroehlichLaw(1.9, 4000);
  const double plus = mean_bz(field_of_ball(law, 2500, 0));
  CHECK(plus > 5e-3);
  CHECK(mean_bz(field_of_ball(law, -2500, 0)) == near(-plus, 1e-9));
  CHECK(std::abs(mean_bz(field_of_ball(law, 0, 0))) < 1e-12);
}

TEST_CASE("the coenergy of a shifted ball is half of what its shift does, in weak fields") {
  // Linear range: W = - 1/2 int Hc B dV, so that the coenergy is +1/2 Hc B V.
  const double shift = 10;
  const Field field = field_of_ball(FroehlichLaw(1.9, 4000), shift, 0);
  const double volume = 4.0 / 3 * pi * radius * radius * radius;
  CHECK(field.coenergy_J == near(0.5 * shift * mean_bz(field) * volume, 1e-4));
}
