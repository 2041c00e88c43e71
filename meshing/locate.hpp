// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include <Eigen/Core>
#include <vector>

#include "meshing/mesh.hpp"

namespace coilpull {

/// Where a point lies in a mesh of straight triangles.
struct MeshPlace {
  int triangle;
  Eigen::Vector3d weights;  ///< barycentric: the point is nodes * weights; negative where it lies outside
  double distance;          ///< from the triangle, 0 inside and on its edges [m]
};

/// Finds triangles by a tree of boxes: graded meshes cost no more than even ones. Keeps its own copy.
class Locator {
public:
  /// @throws std::invalid_argument  for a mesh without triangles
  explicit Locator(const Mesh& mesh);

  /// The triangle that holds the point, or the nearest (outside, or between a chord and its arc).
  /// @throws std::invalid_argument  for a point that is not finite
  /// Of several at the same distance (on an edge or node): the one with the lowest number.
  MeshPlace locate(Point at) const;

private:
  struct Node {
    Eigen::Vector2d low, high;  ///< box around its triangles
    int first, last;            ///< of order_: its triangles
    int second_child;           ///< the first child follows its parent; -1: a leaf
  };
  int build(int first, int last);

  Eigen::Matrix2Xd nodes_;
  Eigen::Matrix3Xi triangles_;
  std::vector<int> order_;
  std::vector<Node> tree_;
};

}  // namespace coilpull
