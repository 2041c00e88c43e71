// SPDX-License-Identifier: GPL-3.0-or-later
#include "solver/measure/magnet_state.hpp"

#include <doctest/doctest.h>

#include <cmath>
#include <optional>

#include "solver/measure/volume_samples.hpp"
#include "tests/near.hpp"
#include "tests/physics/devices.hpp"

using namespace coilpull;

namespace {

/// State of a magnetised ball of recoil permeability 1 in a uniform field, and of the same magnetised along
/// -z.
std::vector<MagnetState> ball_states(double background_T, double knee_T) {
  constexpr double radius = 0.01;
  Device device;
  const Point low{0, -radius}, high{0, radius};
  const Outline ball{{{low, high, Point{0, 0}}, {high, low}}};
  device.magnets.push_back({"ball", ball, {0, 1.2, 1.0}, "invented", 20, knee_T});
  device.displacements = {0};
  device.background_bz_T = background_T;
  const Field field = field_without_current(device);
  std::vector<VolumeSampler> in_magnets;
  in_magnets.emplace_back(*field.space, 0);  // the only part is the first region
  return magnet_states(device, in_magnets, field);
}

}  // namespace

TEST_CASE("a magnetised ball in a field against it stands at two thirds of its remanence less that field") {
  // Jackson, Classical Electrodynamics, 3rd ed., sec. 5.10: B_inside = (2/3) mu0 M; recoil permeability 1
  // adds B0.
  const MagnetState state = ball_states(-0.5, 0.25).at(0);
  CHECK(state.b_mean_T == near(0.3, 1e-4));
  CHECK(state.b_p01_T == near(0.3, 3e-3));  // pointwise at the surface of the default mesh
  CHECK(state.past_knee < 1e-3);
  CHECK_FALSE(state.changed_for_good());
}

TEST_CASE("a ball whose uniform flux density lies below the knee is past it as a whole") {
  const MagnetState state = ball_states(-0.5, 0.35).at(0);
  CHECK(state.past_knee == near(1, 1e-12));
  CHECK(state.changed_for_good());
}

TEST_CASE("percentile, mean and share below a limit weigh by volume") {
  const std::vector<VolumeSample> samples = {{3, 1}, {1, 2}, {2, 1}};
  CHECK(percentile(samples, 0.01) == 1);
  CHECK(percentile(samples, 0.5) == 1);
  CHECK(percentile(samples, 0.6) == 2);
  CHECK(percentile(samples, 1) == 3);
  CHECK(mean(samples) == near(7.0 / 4, 1e-15));
  CHECK(fraction_below(samples, 1.5) == near(0.5, 1e-15));
  CHECK(std::isnan(percentile({}, 0.5)));
}
