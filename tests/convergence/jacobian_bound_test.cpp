// SPDX-License-Identifier: GPL-3.0-or-later
#include "solver/fem/jacobian_bound.hpp"

#include <Eigen/LU>
#include <algorithm>
#include <cmath>

#include "tests/near.hpp"

namespace coilpull {

namespace {

using namespace detail;

Mesh one_triangle(Point a, Point b, Point c) {
  Mesh mesh;
  mesh.nodes.resize(2, 3);
  mesh.nodes << a.r, b.r, c.r, a.z, b.z, c.z;
  mesh.triangles.resize(3, 1);
  mesh.triangles << 0, 1, 2;
  mesh.region_of = Eigen::VectorXi::Zero(1);
  return mesh;
}

/// One triangle of degree 2 whose edge from node 0 to node 1 has its middle moved by `lift` along z.
struct Lifted {
  Mesh mesh = one_triangle({1, 0}, {3, 0}, {2, 1});
  Topology topology = topology_of(mesh);
  Geometry geometry = geometry_of(mesh, topology, 2);

  explicit Lifted(double lift) {
    const int edge = edge_between(topology, 0, 1);
    geometry.coefficients(1, geometry.dofs.edge_dof(edge, 2)) = 4 * lift;  // la lb = 1/4 in the middle
    geometry.curved[0] = 1;
  }
};

/// One triangle of degree 3 whose inner function lifts its middle along z; corners and edges stay as they
/// are.
struct LiftedInside {
  Mesh mesh = one_triangle({1, 0}, {3, 0}, {2, 1});
  Topology topology = topology_of(mesh);
  Geometry geometry = geometry_of(mesh, topology, 3);

  explicit LiftedInside(double lift) {
    int dofs[basis_size(3)];
    geometry.dofs.of_triangle(0, dofs);
    geometry.coefficients(1, dofs[basis_size(3) - 1]) = lift;
    geometry.curved[0] = 1;
  }

  double determinant(double xi, double eta) const {
    int dofs[basis_size(3)];
    geometry.dofs.of_triangle(0, dofs);
    Eigen::Matrix2Xd shape(2, basis_size(3)), slope(2, basis_size(3));
    Eigen::VectorXd value(basis_size(3));
    for (int k = 0; k < basis_size(3); ++k) shape.col(k) = geometry.coefficients.col(dofs[k]);
    evaluate_basis(3, xi, eta, value, slope);
    return (slope * shape.transpose()).determinant();
  }
};

}  // namespace

TEST_CASE("the determinant of a straight triangle is twice its area at every degree") {
  for (int degree = 1; degree <= highest_order; ++degree) {
    const Mesh mesh = one_triangle({1, 0}, {3, 0}, {2, 1});
    const Topology topology = topology_of(mesh);
    const Geometry geometry = geometry_of(mesh, topology, degree);
    const JacobianBound bound = jacobian_bound(geometry, 0);
    CHECK(bound.least == near(2, 1e-9));  // rounding in the change of basis, of degree 10 at most
    CHECK(bound.most == near(2, 1e-9));
    CHECK(keeps_orientation(geometry, 0));
  }
}

TEST_CASE("a bent edge: upright until the curve's tangent at its end reaches the next edge") {
  // The curve z = 4 lift s(1 - s) over r = 1 + 2s leaves its ends with slope 2 lift; the other edges rise
  // with slope 1: the determinant vanishes at two corners when lift = 1/2, and everywhere before it is
  // positive.
  for (const double lift : {-3.0, -0.5, 0.0, 0.3, 0.499}) {
    INFO("lift " << lift);
    CHECK(keeps_orientation(Lifted(lift).geometry, 0));
  }
  for (const double lift : {0.501, 0.7, 2.0}) {
    INFO("lift " << lift);
    CHECK_FALSE(keeps_orientation(Lifted(lift).geometry, 0));
    CHECK(jacobian_bound(Lifted(lift).geometry, 0).least < 0);
  }
}

TEST_CASE("the bounds hold the determinant at every point, and meet it at the corners") {
  const Lifted bent(0.4);
  const JacobianBound bound = jacobian_bound(bent.geometry, 0);
  Eigen::VectorXd value(basis_size(2));
  Eigen::Matrix2Xd slope(2, basis_size(2));
  double least = 1e9;
  for (int i = 0; i <= 20; ++i)
    for (int j = 0; i + j <= 20; ++j) {
      evaluate_basis(2, i / 20., j / 20., value, slope);
      const double here = (slope * bent.geometry.coefficients.transpose()).determinant();
      CHECK(here >= bound.least - 1e-12);
      CHECK(here <= bound.most + 1e-12);
      least = std::min(least, here);
    }
  // At the corners 2 (1 - 2 lift) = 0.4: a corner's value is a coefficient, so the bound cannot be above it.
  CHECK(least == near(0.4, 1e-12));
  CHECK(bound.least == near(0.4, 1e-12));
}

TEST_CASE("a triangle that folds only inside is found") {
  CHECK(keeps_orientation(LiftedInside(2).geometry, 0));
  CHECK_FALSE(keeps_orientation(LiftedInside(40).geometry, 0));
}

TEST_CASE("where the bounds leave it open, the determinant's sign at many points decides") {
  int open = 0;  // the bound falls below 0 before the determinant does
  for (double lift = 1; lift < 20; lift += 0.25) {
    const LiftedInside lifted(lift);
    double least = 1e9;
    for (int i = 0; i <= 50; ++i)
      for (int j = 0; i + j <= 50; ++j) least = std::min(least, lifted.determinant(i / 50., j / 50.));
    INFO("lift " << lift << ", least " << least);
    if (std::abs(least) < 0.01) continue;  // too near to call from 1326 points
    CHECK(keeps_orientation(lifted.geometry, 0) == (least > 0));
    open += least > 0 && jacobian_bound(lifted.geometry, 0).least < 0;
  }
  CHECK(open > 0);
}

TEST_CASE("node numbers that run clockwise give a negative determinant and are as good") {
  const Mesh mesh = one_triangle({1, 0}, {2, 1}, {3, 0});
  const Topology topology = topology_of(mesh);
  const Geometry geometry = geometry_of(mesh, topology, 3);
  CHECK(jacobian_bound(geometry, 0).most == near(-2, 1e-9));
  CHECK(keeps_orientation(geometry, 0));
}

}  // namespace coilpull
