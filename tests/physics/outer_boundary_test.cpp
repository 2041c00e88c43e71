// SPDX-License-Identifier: GPL-3.0-or-later
#include "solver/fem/outer_boundary.hpp"

#include <doctest/doctest.h>

#include <Eigen/LU>
#include <cmath>

#include "materials/constants.hpp"
#include "tests/near.hpp"

using namespace coilpull;
using namespace coilpull::detail;

namespace {

constexpr double R = 0.05, centre = 0.01, r0 = 0.02;

/// A fan of triangles around the centre of the half circle: enough to carry the unknowns of its edge.
std::shared_ptr<Mesh> fan(int edges) {
  auto mesh = std::make_shared<Mesh>();
  mesh->nodes.resize(2, edges + 2);
  mesh->nodes.col(edges + 1) << 0.3 * R, centre;
  for (int i = 0; i <= edges; ++i) {
    const double angle = pi * i / edges;
    mesh->nodes.col(i) << (i == 0 || i == edges ? 0 : R * std::sin(angle)), centre - R * std::cos(angle);
  }
  mesh->triangles.resize(3, edges);
  mesh->outer_edges.resize(2, edges);
  for (int i = 0; i < edges; ++i) {
    mesh->triangles.col(i) << i, i + 1, edges + 1;
    mesh->outer_edges.col(i) << i, i + 1;
    mesh->arcs.push_back({i, i + 1, {0, centre}});
  }
  mesh->region_of = Eigen::VectorXi::Zero(edges);
  mesh->region_names = {"air"};
  mesh->outer_radius = R;
  mesh->outer_centre_z = centre;
  return mesh;
}

/// Coefficients of v on the half circle whose A_phi is that of the n-th harmonic, interpolated edge by edge.
Eigen::VectorXd harmonic(const Space& space, const OuterBoundary& outer, int n) {
  const int order = space.dofs.order();
  Eigen::VectorXd x = Eigen::VectorXd::Zero(space.dofs.size());
  for (Eigen::Index e = 0; e < space.mesh->outer_edges.cols(); ++e) {
    const int edge =
        edge_between(*space.topology, space.mesh->outer_edges(0, e), space.mesh->outer_edges(1, e));
    std::vector<int> dofs(order + 1), shape(space.geometry.dofs.order() + 1);
    space.dofs.of_edge(edge, dofs.data());
    space.geometry.dofs.of_edge(edge, shape.data());
    Eigen::MatrixXd table(order + 1, order + 1);
    Eigen::VectorXd wanted(order + 1), value(basis_size(highest_order));
    Eigen::Matrix2Xd slope(2, basis_size(highest_order));
    for (int k = 0; k <= order; ++k) {
      const double s = 0.5 * (1 - std::cos(pi * k / order));
      evaluate_basis(highest_order, s, 0, value, slope);
      Eigen::Vector2d at = Eigen::Vector2d::Zero();
      for (std::size_t i = 0; i < shape.size(); ++i)
        at += value[i < 2 ? i : basis_size(static_cast<int>(i) - 1)] *
              space.geometry.coefficients.col(shape[i]);
      for (int i = 0; i <= order; ++i) table(k, i) = value[i < 2 ? i : basis_size(i - 1)];
      const double cosine = (at.y() - centre) / R, q = at.x() * at.x() + r0 * r0;
      // P_n^1 / sin = P_n'(cos): finite at the axis, where v = A q / r needs it.
      double p0 = 1, p1 = cosine, d0 = 0, d1 = 1;
      for (int m = 1; m < n; ++m) {
        const double p2 = ((2 * m + 1) * cosine * p1 - m * p0) / (m + 1);
        const double d2 = d0 + (2 * m + 1) * p1;
        p0 = p1, p1 = p2, d0 = d1, d1 = d2;
      }
      wanted[k] = d1 * q / R;  // sin = r / R
    }
    const Eigen::VectorXd modes = table.partialPivLu().solve(wanted);
    for (int i = 0; i <= order; ++i) x[dofs[i]] = modes[i];
  }
  Eigen::VectorXd on_boundary(outer.dofs.size());
  for (Eigen::Index i = 0; i < on_boundary.size(); ++i) on_boundary[i] = x[outer.dofs[i]];
  return on_boundary;
}

}  // namespace

TEST_CASE("a single harmonic has the energy of its field outside the half circle") {
  // A_phi = a (R/rho)^(n+1) P_n^1, a = 1 T m: energy = 1/2 oint A H_theta dS = 1/2 (nu0 n/R) 2 pi R^2
  // 2n(n+1)/(2n+1). Order 6 on 96 edges: the interpolation error of A is about (n pi/96)^7 / 7!.
  const auto mesh = fan(96);
  const Space space = make_space(mesh, std::make_shared<Topology>(topology_of(*mesh)), 6, r0);
  const OuterBoundary outer = outer_boundary(space, 16);
  for (const int n : {1, 2, 3, 5, 8, 12}) {
    const Eigen::VectorXd x = harmonic(space, outer, n);
    const double energy = 0.5 * x.dot(outer.stiffness * x);
    INFO("n = " << n);
    CHECK(energy == near(0.5 * (n / (mu0 * R)) * 2 * pi * R * R * 2 * n * (n + 1) / (2.0 * n + 1),
                         n <= 5 ? 1e-12 : 1e-10));
  }
}

TEST_CASE("different harmonics do not couple") {
  const auto mesh = fan(96);
  const Space space = make_space(mesh, std::make_shared<Topology>(topology_of(*mesh)), 6, r0);
  const OuterBoundary outer = outer_boundary(space, 16);
  const Eigen::VectorXd x = harmonic(space, outer, 2), y = harmonic(space, outer, 4);
  CHECK(std::abs(x.dot(outer.stiffness * y)) < 1e-11 * x.dot(outer.stiffness * x));
}

TEST_CASE("the background load does on the background's own potential what the formula says") {
  // 3 pi R^2 (B0/mu0) q_1 . x0 with A0 = B0 r / 2, q_1 . x0 = (B0 R / 2)(4/3): 2 pi R^3 B0^2 / mu0.
  const auto mesh = fan(96);
  const Space space = make_space(mesh, std::make_shared<Topology>(topology_of(*mesh)), 6, r0);
  const OuterBoundary outer = outer_boundary(space, 16);
  const Eigen::VectorXd x0 = 0.5 * R * harmonic(space, outer, 1);  // A of harmonic 1 is sin(theta) = r / R
  CHECK(outer.per_background_T.dot(x0) == near(2 * pi * R * R * R / mu0, 1e-12));
}

TEST_CASE("more harmonics are asked for when the half circle is tight") {
  CHECK(terms_for(1.3) == 31);  // ceil(ln(1e7) / (2 ln 1.3))
  CHECK(terms_for(1.1) > 80);
  CHECK(terms_for(10) == 8);
}
