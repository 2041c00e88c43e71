// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include <Eigen/Core>

#include "meshing/mesh.hpp"
#include "solver/fem/basis.hpp"

namespace coilpull::detail {

/// Corners and edges of a mesh as the hierarchical basis wants them.
struct Topology {
  int vertices;
  Eigen::Matrix3Xi triangles;       ///< (3, n), node numbers of each triangle rising
  Eigen::Matrix2Xi edges;           ///< (2, n_edges), node numbers rising
  Eigen::Matrix3Xi triangle_edges;  ///< (3, n), edges (0,1), (1,2), (0,2) of each triangle
};

/// @throws std::invalid_argument  when a node number is out of range
Topology topology_of(const Mesh& mesh);

/// Number of the edge between two nodes. @throws std::invalid_argument when there is none
int edge_between(const Topology& topology, int a, int b);

/// Global numbers of the unknowns of order p. Sorted by degree like the basis, so that the unknowns of
/// order p are the first of those of order p+1: a solution of order p starts one of order p+1.
class DofMap {
public:
  DofMap(const Topology& topology, int order);
  int order() const { return order_; }
  int size() const { return size_at(order_); }
  int size_at(int order) const;  ///< unknowns of a lower (or higher) order on the same mesh
  int edge_dof(int edge, int degree) const { return size_at(degree - 1) + edge; }

  /// Global numbers of the basis functions of one triangle, basis_size(order) of them.
  void of_triangle(int triangle, int* dofs) const;
  /// The order + 1 functions that do not vanish on an edge: two ends, then degree 2, 3, ...
  void of_edge(int edge, int* dofs) const;

private:
  const Topology* topology_;
  int order_;
};

}  // namespace coilpull::detail
