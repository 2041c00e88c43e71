// SPDX-License-Identifier: GPL-3.0-or-later
#include "solver/measure/force.hpp"

#include <doctest/doctest.h>

#include <cmath>

#include "solver/device/make_problem.hpp"
#include "solver/fem/element_energy.hpp"
#include "solver/field/field_solver.hpp"
#include "solver/refine/order_pair.hpp"
#include "tests/near.hpp"
#include "tests/physics/devices.hpp"

using namespace coilpull;
using namespace coilpull::detail;

namespace {

/// Energy of given coefficients inside the half circle, load included: what the force is the slope of.
double energy_inside(const Space& space, const Problem& problem, const Field& field,
                     const Eigen::VectorXd& currents) {
  LinearBatch linear;
  Eigen::MatrixXd own;
  double energy = 0;
  for (ElementBatch& batch : batches_of(space, std::vector<char>(problem.regions.size(), 1))) {
    const RegionPhysics& region = problem.regions[batch.region];
    gather(batch.dofs, field.coefficients, own);
    if (is_nonlinear(region)) {
      energy += SteelBatch(region, std::move(batch)).energy(own);
      continue;
    }
    linear_batch(region, batch, linear);
    for (Eigen::Index e = 0; e < own.cols(); ++e) {
      Eigen::MatrixXd stiffness(own.rows(), own.rows());
      const double* next = linear.stiffness.col(e).data();
      for (Eigen::Index j = 0; j < own.rows(); ++j)
        for (Eigen::Index i = j; i < own.rows(); ++i) stiffness(i, j) = stiffness(j, i) = *next++;
      energy += 0.5 * own.col(e).dot(stiffness * own.col(e));
    }
    if (linear.magnet_load.size() > 0) energy -= linear.magnet_load.cwiseProduct(own).sum();
    energy += linear.constant;
    if (!region.winding) continue;
    energy -=
        currents[region.winding->circuit] * winding_load(*region.winding, batch).cwiseProduct(own).sum();
  }
  return energy;
}

struct Solved {
  Device device = tube_and_rod();
  std::shared_ptr<const Mesh> mesh;
  std::unique_ptr<FieldSolver> solver;
  Eigen::VectorXd currents = amperes({6});
  Field field;
  explicit Solved(int order, double fineness = 0.7) {
    mesh = mesh_of(device, device.displacements[0], coarse(fineness));
    FieldOptions options;
    options.order = order;
    solver = std::make_unique<FieldSolver>(mesh, make_problem(device, mesh->region_names), options);
    field = solver->solve(currents);
    REQUIRE(field.report.usable());
  }
  ForceWeight weight() const { return {*solver->space(), roles_for(device.moving, mesh->region_names)}; }
};

std::shared_ptr<const Space> moved_space(const Solved& solved, const ForceWeight& weight, double step) {
  auto space = std::make_shared<Space>(*solved.solver->space());
  space->geometry = moved_along_z(space->geometry, weight.coefficients(), step);
  return space;
}

/// (f(-2h) - 8 f(-h) + 8 f(h) - f(2h)) / 12h
template <class F>
double five_point_slope(const F& f, double h) {
  return (f(-2 * h) - 8 * f(-h) + 8 * f(h) - f(2 * h)) / (12 * h);
}

/// Five points at two steps, their error of order h^4 taken off.
template <class F>
double sharp_slope(const F& f, double h) {
  return (16 * five_point_slope(f, h / 2) - five_point_slope(f, h)) / 15;
}

}  // namespace

TEST_CASE("the force is the slope of the discrete energy when the mesh moves and coefficients are carried") {
  // Exact for any order, mesh and quadrature (the header derives it). Step 4e-5 m: truncation ~
  // (step/size)^4.
  for (const int order : {1, 2, 3, 4}) {
    const Solved solved(order);
    const ForceWeight weight = solved.weight();
    const double slope = sharp_slope(
        [&](double step) {
          return energy_inside(*moved_space(solved, weight, step), solved.solver->problem(), solved.field,
                               solved.currents);
        },
        3e-6);
    INFO("order " << order);
    CHECK(AxialForce(*solved.solver->space(), weight).on(solved.field) == near(-slope, 1e-9));
  }
}

TEST_CASE(
    "the force is the slope of the coenergy of fields solved anew on the moved mesh, and d(linkage)/dz = "
    "dF/di") {
  const Solved solved(3);
  const ForceWeight weight = solved.weight();
  const auto at = [&](double step) {
    return FieldSolver(moved_space(solved, weight, step), solved.solver->problem()).solve(solved.currents);
  };
  const double h = 6e-6;
  const double coenergy_slope = sharp_slope([&](double step) { return at(step).coenergy_J; }, h);
  const AxialForce force(*solved.solver->space(), weight);
  CHECK(force.on(solved.field) ==
        near(coenergy_slope, 1e-8));  // coenergy 0.2 J, rounding 1e-14 J over the step

  const double linkage_slope = sharp_slope([&](double step) { return at(step).linkage_Wb[0]; }, h);
  const double force_slope = five_point_slope(
      [&](double current) { return force.on(solved.solver->solve(solved.currents + amperes({current}))); },
      0.02);
  CHECK(linkage_slope == near(force_slope, 1e-6));  // two numerical slopes
}

TEST_CASE("flux linkage is the slope of the coenergy in the current") {
  const Solved solved(3);
  const double slope = five_point_slope(
      [&](double current) { return solved.solver->solve(solved.currents + amperes({current})).coenergy_J; },
      0.02);
  CHECK(solved.field.linkage_Wb[0] == near(slope, 1e-9));
}

TEST_CASE("slopes of force and linkage from one factorisation are those of fields solved anew") {
  for (const double current : {0.0, 6.0, 15.0}) {
    Solved solved(3);
    solved.currents = amperes({current});
    solved.field = solved.solver->solve(solved.currents);
    const ForceWeight weight = solved.weight();
    const AxialForce force(*solved.solver->space(), weight);
    const TangentResponse response =
        solved.solver->respond(solved.field, solved.currents, force.gradient(solved.field));
    INFO("current " << current);
    const auto with = [&](double more) { return solved.solver->solve(solved.currents + amperes({more})); };
    CHECK(response.inductance_H(0, 0) ==
          near(sharp_slope([&](double more) { return with(more).linkage_Wb[0]; }, 0.02), 1e-7));
    CHECK(response.of_currents[0] ==
          near(sharp_slope([&](double more) { return force.on(with(more)); }, 0.02), 1e-6));
    const double along_z = sharp_slope(
        [&](double step) {
          const auto space = moved_space(solved, weight, step);
          FieldSolver moved(space, solved.solver->problem());
          // g is carried with the mesh: the force at the moved place needs the weight on the moved mesh.
          return AxialForce(*space, weight).on(moved.solve(solved.currents));
        },
        6e-6);
    CHECK(response.of_itself + force.slope_at_carried_field(solved.field) == near(along_z, 1e-5));
  }
}

TEST_CASE("the adjoint of a load is the slope of the field along it, and answers like the tangent") {
  Solved solved(3);
  const Space& space = *solved.solver->space();
  Eigen::VectorXd turns = Eigen::VectorXd::Zero(solved.solver->unknowns());
  const std::vector<char> all(solved.mesh->region_names.size(), 1);
  for (const ElementBatch& batch : batches_of(space, all)) {
    const auto& winding = solved.solver->problem().regions[batch.region].winding;
    if (winding) scatter(batch.dofs, winding_load(*winding, batch), turns);
  }
  const auto with = [&](double more) {
    return solved.solver->solve(solved.currents + amperes({more}), solved.field.coefficients).coefficients;
  };
  const double h = 0.02;
  const Eigen::VectorXd slope = (with(-2 * h) - 8 * with(-h) + 8 * with(h) - with(2 * h)) / (12 * h);
  const Eigen::VectorXd along = solved.solver->adjoint(solved.field, solved.currents, turns);
  CHECK((along - slope).norm() < 1e-8 * slope.norm());  // truncation (h / 6 A)^4 and Newton's residual over h

  const Eigen::VectorXd c = AxialForce(space, solved.weight()).gradient(solved.field);
  const Eigen::VectorXd mu = solved.solver->adjoint(solved.field, solved.currents, c);
  const TangentResponse response = solved.solver->respond(solved.field, solved.currents, c);
  CHECK(mu.dot(turns) == near(response.of_currents[0], 1e-12));  // rounding of a factorisation
  CHECK(along.dot(c) == near(response.of_currents[0], 1e-12));
  CHECK(along.dot(turns) == near(response.inductance_H(0, 0), 1e-12));
  CHECK(mu.dot(c) == near(response.of_itself, 1e-12));
}

TEST_CASE("forces on all bodies, core and winding included, sum to zero within the discretisation") {
  for (const double fineness : {0.7, 1.4}) {
    const Solved solved(3, fineness);
    double sum = 0, largest = 0;
    for (const std::string body : {"rod", "tube", "coil"}) {
      const ForceWeight weight(*solved.solver->space(), roles_for({body}, solved.mesh->region_names));
      const double force = AxialForce(*solved.solver->space(), weight).on(solved.field);
      MESSAGE("fineness " << fineness << ": force on " << body << " " << force << " N");
      sum += force;
      largest = std::max(largest, std::abs(force));
    }
    CHECK(std::abs(sum) < 1e-5 * largest);  // seen: 4e-7 and 2e-6, while each alone is off by 1e-3
  }
}

TEST_CASE("a mirrored device feels the opposite force") {
  // Mirror z -> -z: azimuthal currents and axial magnetisation stay, axial forces turn round. The meshes
  // differ.
  Device device = tube_and_rod(), mirrored = device;
  const auto flip = [](Outline& outline) {
    const Box box = bounding_box(outline);
    outline = rectangle(box.r_from, box.r_to, -box.z_to, -box.z_from);
  };
  flip(mirrored.cores[0].outline);
  flip(mirrored.coils[0].outline);
  flip(mirrored.magnets[0].outline);
  const auto force = [](const Device& one, double displacement) {
    PairSolver solver(mesh_of(one, displacement, coarse(1.5)), one, 3, Resolution{}.outer_ratio);
    return solver.solve(amperes({6})).force_high_N;
  };
  CHECK(force(mirrored, -14e-3) == near(-force(device, 14e-3), 3e-4));
}

TEST_CASE("force and linkage do not depend on where the half circle is drawn") {
  Device device = tube_and_rod();
  double first_force = 0, first_linkage = 0;
  for (const double ratio : {1.25, 2.0, 5.0}) {
    Resolution resolution = coarse(1.5);
    resolution.outer_ratio = ratio;
    resolution.outer_arcs = 24;
    PairSolver solver(mesh_of(device, 14e-3, resolution), device, 4, ratio);
    const OrderPair pair = solver.solve(amperes({6}));
    if (first_force == 0) first_force = pair.force_high_N, first_linkage = pair.high.linkage_Wb[0];
    INFO("ratio " << ratio);
    // Peak force of this device 9.7 N: 1e-5 of it. The meshes differ near the device too.
    CHECK(std::abs(pair.force_high_N - first_force) < 1e-5 * 9.7);
    CHECK(pair.high.linkage_Wb[0] == near(first_linkage, 1e-5));
  }
}

TEST_CASE("four more quadrature points in each direction leave the force where it is") {
  const Solved solved(4);
  auto finer = std::make_shared<Space>(*solved.solver->space());
  for (int& n : finer->rule_of) n += 4;
  FieldOptions options;
  options.order = 4;
  FieldSolver solver(finer, solved.solver->problem(), options);
  const double force = AxialForce(*finer, solved.weight()).on(solver.solve(solved.currents));
  MESSAGE("changes by " << AxialForce(*solved.solver->space(), solved.weight()).on(solved.field) / force - 1);
  // A hundredth of the tightest tolerance that is asked for in practice, 1e-4.
  CHECK(AxialForce(*solved.solver->space(), solved.weight()).on(solved.field) == near(force, 1e-6));
}
