// SPDX-License-Identifier: GPL-3.0-or-later
#include "solver/sweep/carried_mesh.hpp"

#include <doctest/doctest.h>

#include "solver/field/field_solver.hpp"
#include "solver/refine/order_pair.hpp"
#include "tests/near.hpp"
#include "tests/physics/devices.hpp"

using namespace coilpull;

namespace {

std::vector<Role> roles_of(const Device& device, const Mesh& mesh) {
  return roles_for(device.moving, mesh.region_names);
}

double meridian_area(const Mesh& mesh, int region) {
  double twice = 0;
  for (Eigen::Index t = 0; t < mesh.triangles.cols(); ++t) {
    if (mesh.region_of[t] != region) continue;
    const Eigen::Vector2d a = mesh.nodes.col(mesh.triangles(0, t)),
                          ab = mesh.nodes.col(mesh.triangles(1, t)) - a,
                          ac = mesh.nodes.col(mesh.triangles(2, t)) - a;
    twice += ab[0] * ac[1] - ab[1] * ac[0];
  }
  return 0.5 * twice;
}

}  // namespace

TEST_CASE("carrying a mesh shifts the moving part as a whole and leaves every other part where it is") {
  for (const Device& device : {tube_and_rod(), cone_and_ball()}) {
    const auto mesh = mesh_of(device, 0);
    const double shift = 0.2e-3;
    const std::vector<Role> roles = roles_of(device, *mesh);
    const auto moved = carried_mesh(*mesh, roles, shift);
    REQUIRE(moved);
    CHECK(moved->triangles == mesh->triangles);
    for (Eigen::Index t = 0; t < mesh->triangles.cols(); ++t)
      for (const int node : mesh->triangles.col(t)) {
        const Role role = roles[mesh->region_of[t]];
        if (role == Role::free) continue;
        const double expected = mesh->nodes(1, node) + (role == Role::carried ? shift : 0.0);
        CHECK(moved->nodes(0, node) == mesh->nodes(0, node));
        CHECK(moved->nodes(1, node) == expected);
      }
    // Parts keep their areas, the air its own: all triangles still fill the half circle once.
    for (int region = 0; region < static_cast<int>(mesh->region_names.size()); ++region)
      CHECK(meridian_area(*moved, region) == near(meridian_area(*mesh, region), 1e-12));
  }
}

TEST_CASE("a carried mesh gives the force of a mesh made at its place, within what orders leave open") {
  const Device device = tube_and_rod();
  const double here = 12e-3, there = 12.4e-3;
  const Resolution resolution;
  const auto made_here = mesh_of(device, here, resolution), made_there = mesh_of(device, there, resolution);
  const auto moved = carried_mesh(*made_here, roles_of(device, *made_here), there - here);
  REQUIRE(moved);
  const PairSolver like(made_here, device, 3, resolution.outer_ratio);
  const auto shared = std::make_shared<const Mesh>(*moved);
  PairSolver carried(shared, device, 3, resolution.outer_ratio, &like),
      alone(shared, device, 3, resolution.outer_ratio), made(made_there, device, 3, resolution.outer_ratio);
  const Eigen::VectorXd current = Eigen::VectorXd::Constant(1, 6.0);
  const OrderPair a = carried.solve(current), b = made.solve(current);
  // The order of elimination depends on the triangles alone: taken over or found, the same numbers.
  CHECK(a.force_high_N == alone.solve(current).force_high_N);
  const double open = std::abs(a.force_high_N - a.force_low_N) + std::abs(b.force_high_N - b.force_low_N);
  CHECK(std::abs(a.force_high_N - b.force_high_N) < 1.5 * open);
  CHECK(open < 0.02 * std::abs(b.force_high_N));
}

TEST_CASE("a shift that would flatten triangles is refused") {
  const Device device = tube_and_rod();
  const auto mesh = mesh_of(device, 0);
  CHECK_FALSE(carried_mesh(*mesh, roles_of(device, *mesh), 20e-3));
}
