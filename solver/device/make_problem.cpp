// SPDX-License-Identifier: GPL-3.0-or-later
#include "solver/device/make_problem.hpp"

#include <algorithm>
#include <stdexcept>

#include "meshing/section.hpp"

namespace coilpull {
namespace {

RegionPhysics physics_of(const Device& device, const std::string& name) {
  if (name == air_name) return {};
  for (const Core& core : device.cores)
    if (core.name == name) return {core.law, {}, core.shift_A_per_m};
  for (const Magnet& magnet : device.magnets)
    if (magnet.name == name) return {magnet.law, {}};
  for (const Coil& coil : device.coils) {
    if (coil.name != name) continue;
    const auto circuit = std::find(device.circuits.begin(), device.circuits.end(), coil.circuit);
    if (circuit == device.circuits.end())
      throw std::invalid_argument("coil " + name + " belongs to a circuit that the device does not list");
    const double density = coil.sense * coil.turns / area(coil.outline);
    return {SoftLaw{LinearLaw{1.0}}, Winding{static_cast<int>(circuit - device.circuits.begin()), density}};
  }
  throw std::invalid_argument("region " + name + " of the mesh is no part of the device");
}

}  // namespace

Problem make_problem(const Device& device, const std::vector<std::string>& region_names) {
  Problem problem{
      {}, static_cast<int>(device.circuits.size()), device.background_bz_T, blending_length(device)};
  for (const std::string& name : region_names) problem.regions.push_back(physics_of(device, name));
  return problem;
}

double blending_length(const Device& device) {
  double smallest = 0, largest = 0;
  const auto look_at = [&](const Outline& outline, double& least) {
    const Box box = bounding_box(outline);
    largest = std::max({largest, box.r_to, 0.5 * (box.z_to - box.z_from)});
    if (least == 0 || box.r_to < least) least = box.r_to;
  };
  double smallest_coil = 0;
  for (const Core& core : device.cores) look_at(core.outline, smallest);
  for (const Magnet& magnet : device.magnets) look_at(magnet.outline, smallest);
  for (const Coil& coil : device.coils) look_at(coil.outline, smallest_coil);
  return std::max((smallest > 0 ? smallest : smallest_coil) / 3, largest / 300);
}

}  // namespace coilpull
