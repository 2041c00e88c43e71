// SPDX-License-Identifier: GPL-3.0-or-later
// A magnet before a coil, without and with a steel core in the coil: what the steel does to the force.
// Builds on: 01_coil_in_air
// Run:       build/apps/examples/example_02_core_in_coil
// Prints:    force on the magnet 5 mm before the coil at +2 A and -2 A, and the part that follows the current
// Checked:   the core multiplies that part by more than 1 and less than mu_r; forces on all bodies sum to
// zero
//            within the error bar
#include <Eigen/Core>
#include <cmath>
#include <cstdio>
#include <memory>
#include <string>
#include <vector>

#include "meshing/mesh_section.hpp"
#include "solver/device/make_problem.hpp"
#include "solver/device/roles.hpp"
#include "solver/device/section_at.hpp"
#include "solver/field/field_solver.hpp"
#include "solver/measure/force.hpp"
#include "solver/sweep/sweep.hpp"

namespace {

using namespace coilpull;

const double mu_r = 1000;

Device coil_and_magnet() {
  Device device;
  device.title = "magnet before a coil";
  device.coils = {{"drive", rectangle(0.006, 0.010, -0.015, 0.015), 400, "drive"}};
  device.magnets = {{"plunger", rectangle(0, 0.005, 0.015, 0.025), {0, 1.2, 1.05}, "1.2 T"}};
  device.moving = {"plunger"};
  device.displacements = {0.005};
  device.circuits = {"drive"};
  device.currents_A = {{2}, {-2}};
  return device;
}

/// Prints both forces, returns half their difference: the part that turns round with the current [N].
Measured current_part(const char* title, const Device& device) {
  const ForceTable table = sweep(device);
  const Measured plus = table.rows.at(0).force_N, minus = table.rows.at(1).force_N;
  const Measured part = {(plus.value - minus.value) / 2, (plus.error + minus.error) / 2};
  std::printf("%-9s %9.5f +- %.5f N at +2 A, %9.5f +- %.5f N at -2 A: %.5f +- %.5f N follow the current\n",
              title, plus.value, plus.error, minus.value, minus.error, part.value, part.error);
  return part;
}

/// Axial force on some parts of a solved field [N]; Field and mesh as in example 01.
double force_on(const std::vector<std::string>& parts, const Field& field, const Mesh& mesh) {
  const ForceWeight weight(*field.space, roles_for(parts, mesh.region_names));
  return AxialForce(*field.space, weight).on(field);
}

}  // namespace

int main() {
  const Device air = coil_and_magnet();
  Device steel = air;
  steel.cores = {{"core", rectangle(0, 0.005, -0.015, 0.015), LinearLaw{mu_r}, "linear, mu_r 1000"}};

  const Measured without = current_part("air:", air), with = current_part("core:", steel);
  const double ratio = with.value / without.value;
  std::printf("the core multiplies it by %.3f\n", ratio);

  const auto mesh = std::make_shared<const Mesh>(Mesher().mesh(section_at(steel, steel.displacements[0])));
  const Problem problem = make_problem(steel, mesh->region_names);
  const Field field = solve_field(mesh, problem, Eigen::VectorXd::Constant(1, steel.currents_A[0][0]));
  const double on_magnet = force_on({"plunger"}, field, *mesh);
  const double on_rest = force_on({"core", "drive"}, field, *mesh);
  const double bar_N = sweep(steel).rows.at(0).force_N.error;
  std::printf("force on the magnet %.5f N, on coil and core %.5f N\n", on_magnet, on_rest);
  return ratio > 1 && ratio < mu_r && std::fabs(on_magnet + on_rest) < bar_N ? 0 : 1;
}
