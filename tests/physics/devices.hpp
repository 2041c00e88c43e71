// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include <Eigen/Core>
#include <memory>
#include <vector>

#include "meshing/mesh_section.hpp"
#include "solver/device/device.hpp"
#include "solver/device/make_problem.hpp"
#include "solver/device/section_at.hpp"
#include "solver/field/field_solver.hpp"

namespace coilpull {

inline Core core(std::string name, Outline outline, SoftLaw law) {
  return {std::move(name), std::move(outline), std::move(law), "test"};
}
inline Coil coil(std::string name, Outline outline, double turns) {
  return {name, std::move(outline), turns, name, 1, {}};
}
inline Magnet magnet(std::string name, Outline outline, double br_T, double bz_T, double mu = 1.05) {
  return {std::move(name), std::move(outline), {br_T, bz_T, mu}, "test"};
}

/// A tube core with its winding and a rod magnet on its way through the bore, well into saturation at 10 A.
inline Device tube_and_rod() {
  Device device;
  device.title = "tube and rod";
  device.cores = {core("tube", rectangle(6e-3, 9e-3, -20e-3, 20e-3), FroehlichLaw{2.1, 500})};
  device.coils = {coil("coil", rectangle(9.5e-3, 14e-3, -18e-3, 6e-3), 500)};
  device.magnets = {magnet("rod", rectangle(0, 4.5e-3, -5e-3, 11e-3), 0, 1.3)};
  device.moving = {"rod"};
  device.displacements = {14e-3};
  device.circuits = {"coil"};
  device.currents_A = {{6}};
  return device;
}

/// A steel post with a cone, a winding that touches it, a plate glued on, and a ball of steel below a magnet
/// that is magnetised obliquely: slanted faces, arcs, shared faces.
inline Device cone_and_ball() {
  Device device;
  const Point tip{0, 4e-3}, shoulder{3e-3, 4e-3}, foot{6e-3, 0}, corner{6e-3, -8e-3}, bottom{0, -8e-3};
  device.cores = {
      core("post", {{{bottom, corner}, {corner, foot}, {foot, shoulder}, {shoulder, tip}, {tip, bottom}}},
           LangevinLaw{2.0, 200}),
      core("plate", rectangle(0, 14e-3, -11e-3, -8e-3), FroehlichLaw{1.9, 300}),
      core("ball", {{{{0, 9e-3}, {0, 15e-3}, Point{0, 12e-3}}, {{0, 15e-3}, {0, 9e-3}}}}, LinearLaw{40})};
  device.coils = {coil("coil", rectangle(6e-3, 11e-3, -7e-3, -1e-3), 300)};
  device.magnets = {magnet("disc", rectangle(2e-3, 7e-3, 16e-3, 20e-3), 0.6, 0.9)};
  device.moving = {"ball"};
  device.displacements = {0};
  device.circuits = {"coil"};
  device.currents_A = {{5}};
  return device;
}

inline std::shared_ptr<const Mesh> mesh_of(const Device& device, double displacement,
                                           const Resolution& resolution = {},
                                           const MesherOptions& options = {}) {
  return std::make_shared<Mesh>(Mesher(options).mesh(section_at(device, displacement, resolution)));
}

/// The field of order 4 of a device without circuits, undisplaced.
inline Field field_without_current(const Device& device) {
  const auto mesh = mesh_of(device, 0);
  FieldOptions options;
  options.order = 4;
  return solve_field(mesh, make_problem(device, mesh->region_names), Eigen::VectorXd(), options);
}

inline Eigen::VectorXd amperes(const std::vector<double>& values) {
  return Eigen::Map<const Eigen::VectorXd>(values.data(), static_cast<Eigen::Index>(values.size()));
}

inline Resolution coarse(double fineness) {
  Resolution resolution;
  resolution.fineness = fineness;
  return resolution;
}

}  // namespace coilpull
