// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include "meshing/mesh_section.hpp"
#include "solver/device/make_problem.hpp"
#include "solver/device/section_at.hpp"
#include "solver/field/field_solver.hpp"

namespace coilpull {

constexpr double ball_radius = 0.01;    // of a ball magnetised along z, recoil permeability 1 [m]
constexpr double ball_remanence = 1.2;  // [T]

inline Field field_of_ball() {
  Device device;
  const Point low{0, -ball_radius}, high{0, ball_radius};
  device.magnets.push_back(
      {"ball", {{{low, high, Point{0, 0}}, {high, low}}}, {0, ball_remanence, 1.0}, "invented"});
  device.displacements = {0};
  Mesher mesher;
  const auto mesh = std::make_shared<Mesh>(mesher.mesh(section_at(device, 0)));
  FieldOptions options;
  options.order = 4;
  return solve_field(mesh, make_problem(device, mesh->region_names), Eigen::VectorXd(), options);
}

}  // namespace coilpull
