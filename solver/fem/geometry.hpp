// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include <Eigen/Core>
#include <vector>

#include "solver/fem/dof_map.hpp"

namespace coilpull::detail {

/// Shape of every triangle as a finite-element function of its own: (r, z) = sum of coefficients times the
/// hierarchical basis of the given degree. Straight triangles need degree 1; a triangle with an edge on an
/// arc carries that arc's polynomial in its edge functions, which reach inside without further terms
/// (their k-th derivatives are of order h^k: the condition of Lenoir, SIAM J. Numer. Anal. 23 (1986) 562).
struct Geometry {
  DofMap dofs;                    ///< of order = degree
  Eigen::Matrix2Xd coefficients;  ///< (2, dofs.size()): row r, row z [m]
  std::vector<char> curved;       ///< (n_triangles): 0 when the triangle is straight
};

/// Edges on arcs are interpolated at degree + 1 Chebyshev points spaced along the angle.
Geometry geometry_of(const Mesh& mesh, const Topology& topology, int degree);

/// How the nodes of a mesh move, and its arcs between them.
struct NodeMotion {
  Eigen::Matrix2Xd nodes;  ///< (2, nodes), velocities
  Eigen::Matrix3Xd arcs;   ///< (3, Mesh::arcs), (a, c_r, c_z): the radius grows by a, the centre moves by c
};

/// Velocities in the basis of the geometry: linear over each edge; an arc's points move by a n + c, n the
/// unit vector away from the centre, and along the arc by what is left at its two nodes, linear in the angle.
Eigen::Matrix2Xd velocity_on(const Geometry& geometry, const Mesh& mesh, const Topology& topology,
                             const NodeMotion& motion);

/// The same triangles with every point displaced by step * velocity.
Geometry moved(const Geometry& geometry, const Eigen::Matrix2Xd& velocity, double step);

/// The same triangles with every point shifted along z by step * shift, a function of the same basis
/// (its coefficients may be those of a lower order). For checks of forces against energies.
Geometry moved_along_z(const Geometry& geometry, const Eigen::VectorXd& shift, double step);

}  // namespace coilpull::detail
