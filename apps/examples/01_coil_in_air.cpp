// SPDX-License-Identifier: GPL-3.0-or-later
// One coil without steel: the stages from a device to a field, one function each.
// Builds on: nothing.
// Run:       build/apps/examples/example_01_coil_in_air
// Prints:    B in the middle of the coil, computed and by formula; the inductance
// Checked:   both B agree to 1e-6
//
// Outside this tree an include line reads <coilpull/solver/device/device.hpp>, after find_package(coilpull).
#include <Eigen/Core>
#include <cmath>
#include <cstdio>
#include <memory>

#include "materials/constants.hpp"
#include "meshing/mesh_section.hpp"
#include "solver/device/device.hpp"
#include "solver/device/make_problem.hpp"
#include "solver/device/section_at.hpp"
#include "solver/field/field_solver.hpp"

namespace {

/// B_z in the middle of a winding of even current density, by integrating thin loops over its section:
///     B = mu0 J h ln[ (R + sqrt(R^2 + h^2)) / (r + sqrt(r^2 + h^2)) ],  h half the length, r and R its
///     radii.
double middle_bz(double r, double R, double h, double ampere_turns) {
  const double J = ampere_turns / (2 * h * (R - r));
  return coilpull::mu0 * J * h * std::log((R + std::hypot(R, h)) / (r + std::hypot(r, h)));
}

}  // namespace

int main() {
  using namespace coilpull;
  const double r = 0.010, R = 0.014, h = 0.015;  // [m]
  const double turns = 400, current_A = 2;

  Device device;  // plain data, SI units
  device.title = "coil in air";
  device.coils = {{"drive", rectangle(r, R, -h, h), turns, "drive"}};
  device.circuits = {"drive"};
  device.displacements = {0};
  device.currents_A = {{current_A}};

  Resolution resolution;
  resolution.fineness = 4;  // B at a point needs a finer mesh than a force; 1 leaves 1.4e-3 here
  FieldOptions options;
  options.order = 5;

  const Section section = section_at(device, 0, resolution);               // named outlines
  const auto mesh = std::make_shared<const Mesh>(Mesher().mesh(section));  // triangles
  const Problem problem = make_problem(device, mesh->region_names);        // laws and windings
  const Eigen::VectorXd currents_A = Eigen::VectorXd::Constant(1, current_A);
  const Field field = solve_field(mesh, problem, currents_A, options);
  if (!field.report.usable()) return std::puts(words_for(field.report.ending)), 1;

  const double computed_T = flux_density(field, {0, 0}).z;
  const double formula_T = middle_bz(r, R, h, turns * current_A);
  std::printf("B in the middle: %.9f T computed, %.9f T by formula\n", computed_T, formula_T);
  std::printf("inductance: %.6f mH\n", 1e3 * field.linkage_Wb[0] / current_A);
  return std::fabs(computed_T - formula_T) < 1e-6 * formula_T ? 0 : 1;
}
