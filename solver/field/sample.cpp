// SPDX-License-Identifier: GPL-3.0-or-later
#include "solver/field/sample.hpp"

#include <Eigen/LU>
#include <algorithm>
#include <stdexcept>
#include <string>

#include "solver/fem/space.hpp"

namespace coilpull {
namespace {

using namespace detail;

/// The basis at every point of the lattice.
struct Lattice {
  std::vector<Eigen::VectorXd> value;   ///< a point: (basis)
  std::vector<Eigen::Matrix2Xd> slope;  ///< a point: (2, basis)
};

/// mirrored: with the second and third corner exchanged.
Lattice lattice_of(int order, int divisions, bool mirrored) {
  Lattice lattice;
  for (int j = 0; j <= divisions; ++j)
    for (int i = 0; i + j <= divisions; ++i) {
      const double xi = static_cast<double>(mirrored ? j : i) / divisions;
      const double eta = static_cast<double>(mirrored ? i : j) / divisions;
      lattice.value.emplace_back(basis_size(order));
      lattice.slope.emplace_back(2, basis_size(order));
      evaluate_basis(order, xi, eta, lattice.value.back(), lattice.slope.back());
    }
  return lattice;
}

/// Corners are numbered by node number, hence clockwise in about half of the triangles.
bool clockwise(const Space& space, Eigen::Index triangle) {
  const auto corner = [&](int i) -> Eigen::Vector2d {
    return space.mesh->nodes.col(space.topology->triangles(i, triangle));
  };
  const Eigen::Vector2d a = corner(1) - corner(0), b = corner(2) - corner(0);
  return a.x() * b.y() < a.y() * b.x();
}

/// Coefficients of one triangle: (r, z) of its shape and v on it.
struct Element {
  Eigen::Matrix2Xd shape;
  Eigen::VectorXd v;
};

void gather(const Field& field, int triangle, Element& element) {
  const Space& space = *field.space;
  int dofs[basis_size(highest_order)];
  element.shape.resize(2, basis_size(space.geometry.dofs.order()));
  space.geometry.dofs.of_triangle(triangle, dofs);
  for (Eigen::Index i = 0; i < element.shape.cols(); ++i)
    element.shape.col(i) = space.geometry.coefficients.col(dofs[i]);
  element.v.resize(basis_size(space.dofs.order()));
  space.dofs.of_triangle(triangle, dofs);
  for (Eigen::Index i = 0; i < element.v.size(); ++i) element.v[i] = field.coefficients[dofs[i]];
}

}  // namespace

FieldSample sample(const Field& field, int divisions) {
  if (divisions < 1 || divisions > 32)
    throw std::invalid_argument("divisions = " + std::to_string(divisions) + ": allowed are 1 to 32");
  const Space& space = *field.space;
  const int highest = std::max(space.geometry.dofs.order(), space.dofs.order());
  const Lattice upright = lattice_of(highest, divisions, false),
                mirrored = lattice_of(highest, divisions, true);

  FieldSample all;
  all.divisions = divisions;
  const Eigen::VectorXi& region_of = space.mesh->region_of;
  all.region_of.assign(region_of.data(), region_of.data() + region_of.size());
  const Eigen::Index points = all.triangles() * all.per_triangle();
  all.at.resize(2, points);
  all.flux.resize(points);
  all.a_phi.resize(points);
  all.b.resize(2, points);

  Element element;
  const double r0 = space.r0;
  for (Eigen::Index t = 0, k = 0; t < all.triangles(); ++t) {
    gather(field, static_cast<int>(t), element);
    const Lattice& lattice = clockwise(space, t) ? mirrored : upright;
    const Eigen::Index shapes = element.shape.cols(), functions = element.v.size();
    for (int p = 0; p < all.per_triangle(); ++p, ++k) {
      const Eigen::VectorXd& value = lattice.value[p];
      const Eigen::Matrix2Xd& slope = lattice.slope[p];
      all.at.col(k) = element.shape * value.head(shapes);
      const Eigen::Matrix2d jacobian = element.shape * slope.leftCols(shapes).transpose();
      const double v = element.v.dot(value.head(functions));
      const Eigen::Vector2d dv = jacobian.transpose().inverse() * (slope.leftCols(functions) * element.v);
      const double r = all.at(0, k), q = r * r + r0 * r0;  // fem/space.hpp has the formulas
      all.a_phi[k] = r / q * v;
      all.flux[k] = r * all.a_phi[k];
      all.b(0, k) = -r / q * dv.y();
      all.b(1, k) = 2 * r0 * r0 / (q * q) * v + r / q * dv.x();
    }
  }
  return all;
}

}  // namespace coilpull
