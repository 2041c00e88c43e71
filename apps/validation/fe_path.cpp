// SPDX-License-Identifier: GPL-3.0-or-later
#include "apps/validation/fe_path.hpp"

#include <optional>
#include <stdexcept>

#include "solver/device/make_problem.hpp"
#include "solver/device/roles.hpp"
#include "solver/field/field_solver.hpp"
#include "solver/measure/force.hpp"

namespace coilpull {

double Solved::a_phi(Point at) const { return vector_potential(*field, at); }
double Solved::b_r(Point at) const { return flux_density(*field, at).r; }
double Solved::b_z(Point at) const { return flux_density(*field, at).z; }

FePath::FePath(int order, const Resolution& resolution) : order_(order), resolution_(resolution) {
  mesher_.start();
}

std::vector<Solved> FePath::solve(Device device, double displacement,
                                  const std::vector<std::vector<double>>& currents_A) {
  device.displacements = {displacement};
  const auto mesh = std::make_shared<const Mesh>(mesher_.mesh(section_at(device, displacement, resolution_)));
  FieldOptions options;
  options.order = order_;
  options.outer_ratio = resolution_.outer_ratio;
  FieldSolver solver(mesh, make_problem(device, mesh->region_names), options);
  std::optional<AxialForce> force;
  if (!device.moving.empty()) {
    const ForceWeight weight(*solver.space(), roles_for(device.moving, mesh->region_names));
    force.emplace(*solver.space(), weight);
  }

  std::vector<Solved> all;
  for (const std::vector<double>& amperes : currents_A) {
    const auto n = static_cast<Eigen::Index>(amperes.size());
    const auto field =
        std::make_shared<const Field>(solver.solve(Eigen::Map<const Eigen::VectorXd>(amperes.data(), n)));
    if (!field->report.usable()) throw std::runtime_error(words_for(field->report.ending));
    Solved solved;
    if (force) solved.force_N = force->on(*field);
    solved.linkage_Wb.assign(field->linkage_Wb.begin(), field->linkage_Wb.end());
    solved.coenergy_J = field->coenergy_J;
    solved.field = field;
    all.push_back(solved);
  }
  return all;
}

namespace {
Outline outline_of(const Box& box) { return rectangle(box.r_from, box.r_to, box.z_from, box.z_to); }
}  // namespace

Coil coil_of(const std::string& name, const Box& section, double turns) {
  return {name, outline_of(section), turns, name};
}

Magnet magnet_of(const std::string& name, const Box& section, double remanence_T, double recoil) {
  return {name, outline_of(section), MagnetLaw{0, remanence_T, recoil}, "magnet"};
}

Device in_air(const std::vector<Coil>& coils, const std::vector<Magnet>& magnets) {
  Device device;
  device.coils = coils;
  device.magnets = magnets;
  for (const Coil& coil : coils) device.circuits.push_back(coil.circuit);
  if (coils.size() + magnets.size() > 1)
    device.moving = {magnets.empty() ? coils.back().name : magnets.back().name};
  return device;
}

}  // namespace coilpull
