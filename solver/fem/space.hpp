// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include <memory>
#include <string>
#include <vector>

#include "meshing/mesh.hpp"
#include "solver/fem/geometry.hpp"

namespace coilpull::detail {

/// One mesh at one order: where the unknowns are and how the triangles are shaped. The unknown is
///     v,   psi = r A_phi = r^2 v / q,   q = r^2 + r0^2,
/// near the axis like A_phi / r (nothing is divided by r, the axis needs no condition), far from it like the
/// flux psi, which is constant where a closed circuit leaves no field.
struct Space {
  std::shared_ptr<const Mesh> mesh;
  std::shared_ptr<const Topology> topology;
  Geometry geometry;
  DofMap dofs;
  double r0;                 ///< blending length [m]
  std::vector<int> rule_of;  ///< (n_triangles): n of triangle_rule(n), see points_for()
};

/// The geometry has the degree of the solution, at least 2 so that force weights fit in.
/// @throws MeshingFailed  a curved triangle folds over itself
Space make_space(std::shared_ptr<const Mesh> mesh, std::shared_ptr<const Topology> topology, int order,
                 double r0);

/// Quadrature of a triangle: the integrand is a polynomial of degree 2 order times a rational function of r
/// with poles at r = +- i r0; n grows until the Bernstein ellipse through the poles leaves 1e-3. The function
/// is close to a constant in most triangles: four points more in each direction change a force by 1e-8 to
/// 1e-7. Trefethen, Approximation Theory and Approximation Practice, 2013, theorem 19.3.
int points_for(int order, double r_least, double r_most, double r0);

/// A triangle's quadrature rule carried onto the triangle: one entry a point.
struct MappedRule {
  Eigen::ArrayXd r, z;                      ///< [m]
  Eigen::ArrayXd weight;                    ///< 2 pi r |J| w: sums to the volume of revolution [m^3]
  Eigen::ArrayXd xi_r, xi_z, eta_r, eta_z;  ///< slopes of the reference coordinates [1/m]
  bool upright;                             ///< the Jacobian keeps one sign over all points
};

void map_rule(const Geometry& geometry, int triangle, int n, MappedRule& out);

/// A triangle's basis as fields: row = quadrature point, column = function.
///     B_r = -(r/q) dv/dz      B_z = (2 r0^2/q^2) v + (r/q) dv/dr      A_phi = (r/q) v
struct ElementFields {
  MappedRule at;
  Eigen::MatrixXd b_r, b_z, a;
};

void evaluate_fields(const Space& space, int triangle, ElementFields& out);

}  // namespace coilpull::detail
