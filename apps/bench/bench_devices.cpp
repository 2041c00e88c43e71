// SPDX-License-Identifier: GPL-3.0-or-later
#include "apps/bench/bench_devices.hpp"

#include <algorithm>
#include <numeric>
#include <utility>

namespace coilpull {
namespace {

constexpr double bench_tolerance =
    0.005;  // of fields and inductances in air: more than a hand-held meter has

}  // namespace

std::vector<double> strongest_currents(const Device& device) {
  const auto strength = [](const std::vector<double>& set) {
    return std::pair{std::inner_product(set.begin(), set.end(), set.begin(), 0.0),
                     std::accumulate(set.begin(), set.end(), 0.0)};
  };
  return *std::max_element(device.currents_A.begin(), device.currents_A.end(),
                           [&](const auto& a, const auto& b) { return strength(a) < strength(b); });
}

Device coils_alone(const Device& device) {
  Device alone = device;
  alone.cores.clear();
  alone.magnets.clear();
  alone.sensors.clear();
  alone.background_bz_T = 0;
  alone.tolerance = bench_tolerance;
  alone.displacements.resize(1);
  alone.moving.clear();
  for (Coil& coil : alone.coils)
    if (is_moving(device, coil.name)) coil.outline = moved(coil.outline, device.displacements.front());
  alone.currents_A.clear();
  for (std::size_t k = 0; k < alone.circuits.size(); ++k) {
    alone.currents_A.emplace_back(alone.circuits.size(), 0.0);
    alone.currents_A.back()[k] = 1;
  }
  return alone;
}

Device magnet_alone(const Device& device, std::size_t magnet, const std::vector<double>& distances) {
  Device alone;
  alone.title = device.title;
  alone.magnets = {device.magnets[magnet]};
  alone.displacements = {0};
  alone.currents_A = {{}};
  alone.tolerance = bench_tolerance;
  const Box box = bounding_box(alone.magnets.front().outline);
  for (const double distance : distances) {
    alone.sensors.push_back({"behind", {0, box.z_from - distance}});
    alone.sensors.push_back({"before", {0, box.z_to + distance}});
  }
  return alone;
}

Device on_the_scale(const Device& device, const std::vector<double>& displacements) {
  Device scaled = device;
  scaled.sensors.clear();
  scaled.displacements = displacements;
  const std::vector<double> off(device.circuits.size(), 0.0), on = strongest_currents(device);
  scaled.currents_A = {off};
  if (on != off) scaled.currents_A.push_back(on);
  return scaled;
}

}  // namespace coilpull
