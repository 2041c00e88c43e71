// SPDX-License-Identifier: GPL-3.0-or-later
#include <doctest/doctest.h>

#include "solver/device/make_problem.hpp"
#include "solver/field/field_solver.hpp"
#include "tests/near.hpp"
#include "tests/physics/devices.hpp"

using namespace coilpull;

TEST_CASE("the energy's gradient vanishes at a solution and is the slope of the energy elsewhere") {
  Device device = tube_and_rod();
  device.background_bz_T = 0.01;
  const auto mesh = mesh_of(device, 0);
  const Problem problem = make_problem(device, mesh->region_names);
  FieldSolver solver(mesh, problem);
  const Eigen::VectorXd currents = amperes({6});
  const Field field = solver.solve(currents);
  REQUIRE(field.report.usable());
  const auto gradient_at = [&](const Eigen::VectorXd& x) { return solver.energy_gradient(currents, x); };
  const double load = gradient_at(Eigen::VectorXd::Zero(solver.unknowns())).norm();
  // Newton stops at 1e-8 in the energy norm and takes one more step; assembly in another order rounds.
  CHECK(gradient_at(field.coefficients).norm() < 1e-9 * load);

  // Around the minimum E(x + t d) - E(x) = t^2/2 d'Kd: twice the gradient's share along d at half a step is
  // the share at a full one, up to the change of the tangent.
  const Eigen::VectorXd small = 1e-4 * field.coefficients;
  const double half = gradient_at(field.coefficients + 0.5 * small).dot(small);
  const double full = gradient_at(field.coefficients + small).dot(small);
  CHECK(half > 0);
  CHECK(full == near(2 * half, 1e-3));
}

TEST_CASE(
    "the adjoint by Newton's last tangent is the adjoint to a few percent, and itself where it is gone") {
  const Device device = tube_and_rod();
  const auto mesh = mesh_of(device, 0);
  FieldSolver solver(mesh, make_problem(device, mesh->region_names));
  const Eigen::VectorXd currents = amperes({6}), other = amperes({-2});
  const Field field = solver.solve(currents);
  REQUIRE(field.report.usable());
  const Eigen::VectorXd load = solver.energy_gradient(other, field.coefficients);  // any load will do
  const Eigen::VectorXd quick = solver.adjoint_after_solve(field, currents, load),
                        exact = solver.adjoint(field, currents, load);
  CHECK((quick - exact).norm() < 0.05 * exact.norm());                // NewtonOptions::keep_tangent
  CHECK(solver.adjoint_after_solve(field, currents, load) == exact);  // the exact tangent is the last now
  REQUIRE(solver.solve(other).report.usable());
  CHECK(solver.adjoint_after_solve(field, currents, load) == exact);
  FieldSolver fresh(mesh, solver.problem());
  CHECK((fresh.adjoint_after_solve(field, currents, load) - exact).norm() < 1e-10 * exact.norm());
}
