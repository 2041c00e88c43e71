// SPDX-License-Identifier: GPL-3.0-or-later
#include "solver/fem/dof_map.hpp"

#include <algorithm>
#include <array>
#include <stdexcept>
#include <vector>

namespace coilpull::detail {

Topology topology_of(const Mesh& mesh) {
  const int n = static_cast<int>(mesh.triangles.cols());
  Topology topology{static_cast<int>(mesh.nodes.cols()), mesh.triangles, {}, Eigen::Matrix3Xi(3, n)};
  if (n > 0 && (mesh.triangles.minCoeff() < 0 || mesh.triangles.maxCoeff() >= topology.vertices))
    throw std::invalid_argument("a triangle names a node that the mesh does not have");

  struct Side {
    int a, b, triangle, place;
  };
  std::vector<Side> sides;
  sides.reserve(3 * static_cast<std::size_t>(n));
  for (int t = 0; t < n; ++t) {
    auto corners = topology.triangles.col(t);
    std::sort(corners.begin(), corners.end());
    sides.push_back({corners[0], corners[1], t, 0});
    sides.push_back({corners[1], corners[2], t, 1});
    sides.push_back({corners[0], corners[2], t, 2});
  }
  std::sort(sides.begin(), sides.end(), [](const Side& x, const Side& y) {
    return std::array{x.a, x.b, x.triangle} < std::array{y.a, y.b, y.triangle};
  });
  std::vector<int> ends;
  int edge = -1;
  for (std::size_t i = 0; i < sides.size(); ++i) {
    if (i == 0 || sides[i].a != sides[i - 1].a || sides[i].b != sides[i - 1].b) {
      ++edge;
      ends.insert(ends.end(), {sides[i].a, sides[i].b});
    }
    topology.triangle_edges(sides[i].place, sides[i].triangle) = edge;
  }
  topology.edges = Eigen::Map<Eigen::Matrix2Xi>(ends.data(), 2, edge + 1);
  return topology;
}

int edge_between(const Topology& topology, int a, int b) {
  const std::array wanted{std::min(a, b), std::max(a, b)};
  int low = 0, high = static_cast<int>(topology.edges.cols());  // the edges are sorted by their ends
  while (low < high) {
    const int middle = (low + high) / 2;
    const std::array here{topology.edges(0, middle), topology.edges(1, middle)};
    if (here == wanted) return middle;
    (here < wanted ? low : high) = here < wanted ? middle + 1 : middle;
  }
  throw std::invalid_argument("the mesh has no edge between two nodes that it names as one");
}

DofMap::DofMap(const Topology& topology, int order) : topology_(&topology), order_(order) {
  if (order < 1 || order > highest_order)
    throw std::invalid_argument("the order is outside 1 .. highest_order");
}

int DofMap::size_at(int order) const {
  const int edges = static_cast<int>(topology_->edges.cols());
  const int triangles = static_cast<int>(topology_->triangles.cols());
  return topology_->vertices + (order - 1) * edges + (order - 1) * (order - 2) / 2 * triangles;
}

void DofMap::of_triangle(int triangle, int* dofs) const {
  for (int i = 0; i < 3; ++i) *dofs++ = topology_->triangles(i, triangle);
  for (int degree = 2; degree <= order_; ++degree) {
    const int base = size_at(degree - 1), inner = degree - 2;
    for (int e = 0; e < 3; ++e) *dofs++ = base + topology_->triangle_edges(e, triangle);
    const int inside = base + static_cast<int>(topology_->edges.cols()) + triangle * inner;
    for (int i = 0; i < inner; ++i) *dofs++ = inside + i;
  }
}

void DofMap::of_edge(int edge, int* dofs) const {
  *dofs++ = topology_->edges(0, edge);
  *dofs++ = topology_->edges(1, edge);
  for (int degree = 2; degree <= order_; ++degree) *dofs++ = edge_dof(edge, degree);
}

}  // namespace coilpull::detail
