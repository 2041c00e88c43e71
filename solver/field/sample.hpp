// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include <Eigen/Core>
#include <vector>

#include "solver/field/field.hpp"

namespace coilpull {

/// A field on an even lattice of every triangle, for pictures and files. Neighbours do not share points,
/// since B jumps where the material changes. Curved triangles are sampled along their true shape.
///
/// Points of a triangle with n = divisions: row by row from its first edge, (i, j) with j = 0..n slow and
/// i = 0..n - j fast, at barycentric (n - i - j, i, j) / n of its corners, which run counter-clockwise.
struct FieldSample {
  int divisions = 1;
  std::vector<int> region_of;  ///< (n_triangles), index into the mesh's region_names
  Eigen::Matrix2Xd at;         ///< (2, n_triangles * per_triangle()), column = (r, z) [m]
  Eigen::VectorXd flux;        ///< psi = r A_phi; the flux through a disc of radius r is 2 pi psi [Wb]
  Eigen::VectorXd a_phi;       ///< [T m]
  Eigen::Matrix2Xd b;          ///< (2, ...), column = (B_r, B_z) [T]

  int per_triangle() const { return (divisions + 1) * (divisions + 2) / 2; }
  Eigen::Index triangles() const { return static_cast<Eigen::Index>(region_of.size()); }
};

/// Number of point (i, j) within its triangle.
inline int lattice_point(int divisions, int i, int j) { return j * (divisions + 1) - j * (j - 1) / 2 + i; }

/// @param divisions  of every edge, 1 to 32
/// @throws std::invalid_argument  for other divisions
FieldSample sample(const Field& field, int divisions);

}  // namespace coilpull
