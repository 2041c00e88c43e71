// SPDX-License-Identifier: GPL-3.0-or-later
#include "solver/fem/space.hpp"

#include <algorithm>
#include <cmath>
#include <complex>
#include <string>

#include "materials/constants.hpp"
#include "meshing/mesh_section.hpp"
#include "solver/fem/jacobian_bound.hpp"

namespace coilpull::detail {
namespace {

constexpr int most_points = 40;  // on a side of the square that a rule folds, see basis_table

}  // namespace

int points_for(int order, double r_least, double r_most, double r0) {
  constexpr double left = 1e-3;
  const double half = 0.5 * (r_most - r_least);
  const std::complex<double> pole((-0.5 * (r_most + r_least)) / half, r0 / half);
  const std::complex<double> root = std::sqrt(pole * pole - 1.0);
  const double rho = std::max(std::abs(pole + root), std::abs(pole - root));
  const double more = -0.5 * std::log(left) / std::log(rho);
  return std::min(most_points, order + 1 + static_cast<int>(std::ceil(more)));
}

Space make_space(std::shared_ptr<const Mesh> mesh, std::shared_ptr<const Topology> topology, int order,
                 double r0) {
  Geometry geometry = geometry_of(*mesh, *topology, std::max(order, 2));
  Space space{mesh, topology, std::move(geometry), DofMap(*topology, order), r0, {}};
  space.rule_of.resize(topology->triangles.cols());
  for (Eigen::Index t = 0; t < topology->triangles.cols(); ++t) {
    double least = mesh->nodes(0, topology->triangles(0, t)), most = least;
    for (int i = 1; i < 3; ++i) {
      least = std::min(least, mesh->nodes(0, topology->triangles(i, t)));
      most = std::max(most, mesh->nodes(0, topology->triangles(i, t)));
    }
    if (space.geometry.curved[t] && !keeps_orientation(space.geometry, static_cast<int>(t)))
      throw MeshingFailed("a triangle on an arc folds over itself near r = " + std::to_string(1e3 * most) +
                          " mm: the mesh is too coarse there for the curvature");
    space.rule_of[t] =
        std::min(most_points, points_for(order, least, most, r0) + (space.geometry.curved[t] ? 1 : 0));
  }
  return space;
}

void map_rule(const Geometry& geometry, int triangle, int n, MappedRule& out) {
  const int degree = geometry.curved[triangle] ? geometry.dofs.order() : 1;
  const BasisTable& table = basis_table(degree, n);
  int dofs[basis_size(highest_order)];
  geometry.dofs.of_triangle(triangle, dofs);
  const int size = basis_size(degree);
  Eigen::Matrix<double, Eigen::Dynamic, 2, 0, basis_size(highest_order), 2> shape(size, 2);
  for (int i = 0; i < size; ++i) shape.row(i) = geometry.coefficients.col(dofs[i]).transpose();

  const auto r = shape.col(0), z = shape.col(1);
  out.r = (table.value * r).array();
  out.z = (table.value * z).array();
  out.eta_z = (table.d_xi * r).array();                      // r_xi
  out.xi_z = -(table.d_eta * r).array();                     // -r_eta
  out.eta_r = -(table.d_xi * z).array();                     // -z_xi
  out.xi_r = (table.d_eta * z).array();                      // z_eta
  out.weight = out.eta_z * out.xi_r - out.xi_z * out.eta_r;  // J
  out.upright = out.weight.minCoeff() * out.weight.maxCoeff() > 0;
  for (auto* slope : {&out.xi_r, &out.xi_z, &out.eta_r, &out.eta_z}) *slope /= out.weight;
  out.weight = 2 * pi * out.r * out.weight.abs() * table.rule.weights.array();
}

void evaluate_fields(const Space& space, int triangle, ElementFields& out) {
  const int n = space.rule_of[triangle];
  const BasisTable& basis = basis_table(space.dofs.order(), n);
  map_rule(space.geometry, triangle, n, out.at);
  const Eigen::ArrayXd q = out.at.r.square() + space.r0 * space.r0;
  const Eigen::ArrayXd blend = out.at.r / q, axial = 2 * space.r0 * space.r0 / q.square();
  out.a = blend.matrix().asDiagonal() * basis.value;
  out.b_r = (-blend * out.at.xi_z).matrix().asDiagonal() * basis.d_xi;
  out.b_r -= (blend * out.at.eta_z).matrix().asDiagonal() * basis.d_eta;
  out.b_z = (blend * out.at.xi_r).matrix().asDiagonal() * basis.d_xi;
  out.b_z += (blend * out.at.eta_r).matrix().asDiagonal() * basis.d_eta;
  out.b_z += axial.matrix().asDiagonal() * basis.value;
}

}  // namespace coilpull::detail
