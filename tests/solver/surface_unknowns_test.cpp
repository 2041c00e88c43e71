// SPDX-License-Identifier: GPL-3.0-or-later
#include <doctest/doctest.h>

#include "solver/device/roles.hpp"
#include "solver/measure/force.hpp"
#include "tests/near.hpp"
#include "tests/physics/devices.hpp"

using namespace coilpull;

namespace {

FieldSolver solver_of(const Device& device, const std::shared_ptr<const Mesh>& mesh, int most_on_surface) {
  FieldOptions options;
  options.most_on_surface = most_on_surface;
  return FieldSolver(mesh, make_problem(device, mesh->region_names), options);
}

}  // namespace

// Two ways through the same equations: what both leave is rounding times the condition of the matrix.
TEST_CASE("a field is the same with the air eliminated onto the steel and with nothing eliminated") {
  for (const Device& device : {tube_and_rod(), cone_and_ball()}) {
    CAPTURE(device.title);
    const auto mesh = mesh_of(device, device.displacements[0]);
    FieldSolver full = solver_of(device, mesh, 1 << 30), sparse = solver_of(device, mesh, 0);
    const Eigen::VectorXd current = Eigen::VectorXd::Constant(1, 5);
    const Field a = full.solve(current), b = sparse.solve(current);
    REQUIRE(a.report.usable());
    REQUIRE(b.report.usable());
    CHECK(b.coenergy_J == near(a.coenergy_J, 1e-11));
    CHECK(b.linkage_Wb[0] == near(a.linkage_Wb[0], 1e-11));
    CHECK((b.coefficients - a.coefficients).norm() / a.coefficients.norm() < 1e-12);

    const ForceWeight weight(*full.space(), roles_for(device.moving, mesh->region_names));
    const AxialForce force(*full.space(), weight);
    CHECK(force.on(b) == near(force.on(a), 1e-11));
    const Eigen::VectorXd gradient = force.gradient(a), mu = full.adjoint(a, current, gradient);
    CHECK((sparse.adjoint(b, current, gradient) - mu).norm() / mu.norm() < 1e-12);
    const TangentResponse from_full = full.respond(a, current, gradient),
                          from_sparse = sparse.respond(b, current, gradient);
    CHECK(from_sparse.inductance_H(0, 0) == near(from_full.inductance_H(0, 0), 1e-11));
    CHECK(from_sparse.of_currents[0] == near(from_full.of_currents[0], 1e-11));
    CHECK(from_sparse.of_itself == near(from_full.of_itself, 1e-11));
  }
}
