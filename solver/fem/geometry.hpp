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

/// The same triangles with every point shifted along z by step * shift, a function of the same basis
/// (its coefficients may be those of a lower order). For checks of forces against energies.
Geometry moved_along_z(const Geometry& geometry, const Eigen::VectorXd& shift, double step);

}  // namespace coilpull::detail
