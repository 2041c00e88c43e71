// SPDX-License-Identifier: GPL-3.0-or-later
#include "solver/field/field.hpp"

#include <Eigen/LU>
#include <algorithm>
#include <cmath>
#include <stdexcept>
#include <string>

#include "solver/fem/space.hpp"

namespace coilpull {
namespace {

using namespace detail;

/// A triangle and the reference coordinates of a point in it.
struct Place {
  int triangle = -1;
  Eigen::Vector2d at;
  double inside = -1e300;  ///< smallest barycentric coordinate
};

/// Reference coordinates of a point by Newton's method on the triangle's shape.
Eigen::Vector2d pull_back(const Space& space, int triangle, Point point) {
  const int degree = space.geometry.curved[triangle] ? space.geometry.dofs.order() : 1,
            size = basis_size(degree);
  int dofs[basis_size(highest_order)];
  space.geometry.dofs.of_triangle(triangle, dofs);
  Eigen::VectorXd value(size);
  Eigen::Matrix2Xd slope(2, size);
  Eigen::Vector2d xi(1.0 / 3, 1.0 / 3);
  for (int step = 0; step < 20; ++step) {
    evaluate_basis(degree, xi.x(), xi.y(), value, slope);
    Eigen::Vector2d miss(-point.r, -point.z);
    Eigen::Matrix2d jacobian = Eigen::Matrix2d::Zero();
    for (int i = 0; i < size; ++i) {
      miss += value[i] * space.geometry.coefficients.col(dofs[i]);
      jacobian += space.geometry.coefficients.col(dofs[i]) * slope.col(i).transpose();
    }
    const Eigen::Vector2d change = jacobian.partialPivLu().solve(miss);
    xi -= change;
    if (change.norm() < 1e-14 || degree == 1) break;
  }
  return xi;
}

Place find(const Space& space, Point point) {
  Place best;
  const Topology& topology = *space.topology;
  for (Eigen::Index t = 0; t < topology.triangles.cols(); ++t) {
    Eigen::Vector2d low = space.mesh->nodes.col(topology.triangles(0, t)), high = low;
    for (int i = 1; i < 3; ++i) {
      low = low.cwiseMin(space.mesh->nodes.col(topology.triangles(i, t)));
      high = high.cwiseMax(space.mesh->nodes.col(topology.triangles(i, t)));
    }
    const Eigen::Vector2d margin =
        (space.geometry.curved[t] ? 0.5 : 1e-9) * (high - low).norm() * Eigen::Vector2d::Ones();
    const Eigen::Vector2d p(point.r, point.z);
    if (((p - low + margin).array() < 0).any() || ((high + margin - p).array() < 0).any()) continue;
    const Eigen::Vector2d xi = pull_back(space, static_cast<int>(t), point);
    const double inside = std::min({xi.x(), xi.y(), 1 - xi.x() - xi.y()});
    if (inside > best.inside) best = {static_cast<int>(t), xi, inside};
  }
  if (best.inside < -1e-6)
    throw std::out_of_range("the point r = " + std::to_string(1e3 * point.r) +
                            " mm, z = " + std::to_string(1e3 * point.z) + " mm lies outside the mesh");
  return best;
}

struct Local {
  double a, b_r, b_z;
};

Local evaluate_at(const Field& field, Point point) {
  const Space& space = *field.space;
  const Place place = find(space, point);
  int dofs[basis_size(highest_order)];
  Eigen::Matrix2d jacobian = Eigen::Matrix2d::Zero();
  const int degree = space.geometry.dofs.order();
  const int highest = std::max(degree, space.dofs.order());
  Eigen::VectorXd value(basis_size(highest));
  Eigen::Matrix2Xd slope(2, basis_size(highest));
  evaluate_basis(highest, place.at.x(), place.at.y(), value, slope);
  space.geometry.dofs.of_triangle(place.triangle, dofs);
  for (int i = 0; i < basis_size(degree); ++i)
    jacobian += space.geometry.coefficients.col(dofs[i]) * slope.col(i).transpose();
  space.dofs.of_triangle(place.triangle, dofs);
  double v = 0;
  Eigen::Vector2d dv_reference = Eigen::Vector2d::Zero();
  for (int i = 0; i < basis_size(space.dofs.order()); ++i) {
    v += field.coefficients[dofs[i]] * value[i];
    dv_reference += field.coefficients[dofs[i]] * slope.col(i);
  }
  const Eigen::Vector2d dv = jacobian.transpose().partialPivLu().solve(dv_reference);
  const double r = point.r, r0 = space.r0, q = r * r + r0 * r0;
  return {r / q * v, -r / q * dv.y(), 2 * r0 * r0 / (q * q) * v + r / q * dv.x()};
}

}  // namespace

double vector_potential(const Field& field, Point at) { return evaluate_at(field, at).a; }

FluxDensity flux_density(const Field& field, Point at) {
  const Local local = evaluate_at(field, at);
  return {local.b_r, local.b_z};
}

}  // namespace coilpull
