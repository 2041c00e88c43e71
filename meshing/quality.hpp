// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include "meshing/mesh.hpp"

namespace coilpull {

/// 2 inradius / circumradius = 16 A^2 / ((a + b + c) a b c): 1 for an equilateral triangle, 0 for a flat one.
double triangle_quality(Point a, Point b, Point c);

/// How well shaped the triangles of a mesh are.
struct MeshQuality {
  double worst;           ///< smallest triangle_quality()
  int worst_triangle;     ///< its number
  double smallest_angle;  ///< of all corners [rad]
};

/// Straight triangles; arcs are not bent. @throws std::invalid_argument  for a mesh without triangles
MeshQuality quality(const Mesh& mesh);

}  // namespace coilpull
