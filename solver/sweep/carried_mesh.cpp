// SPDX-License-Identifier: GPL-3.0-or-later
#include "solver/sweep/carried_mesh.hpp"

#include <algorithm>
#include <limits>

#include "meshing/detail/plane.hpp"

namespace coilpull {
namespace {

using detail::cross;
using detail::dot;

constexpr double stiff = 0.3;       // of the way to the other group: what moves like the part itself
constexpr double shape_kept = 0.5;  // least part of its shape that a triangle must keep

Point point_of(const Mesh& mesh, int node) { return {mesh.nodes(0, node), mesh.nodes(1, node)}; }

/// Segments of a border.
using Border = std::vector<std::pair<Point, Point>>;

double distance(const Border& border, Point from) {
  double least = std::numeric_limits<double>::infinity();
  for (const auto& [a, b] : border) least = std::min(least, detail::to_segment(a, b, from));
  return least;
}

/// For each node the role of a part it belongs to; free: in the air.
std::vector<Role> roles_of_nodes(const Mesh& mesh, const std::vector<Role>& roles) {
  std::vector<Role> of_node(mesh.nodes.cols(), Role::free);
  for (Eigen::Index t = 0; t < mesh.triangles.cols(); ++t)
    if (const Role role = roles.at(mesh.region_of[t]); role != Role::free)
      for (const int node : mesh.triangles.col(t)) of_node[node] = role;
  for (const int node : mesh.outer_edges.reshaped()) of_node[node] = Role::held;
  return of_node;
}

/// Sides of triangles of the air that lie on parts of one role, or on the half circle.
Border border_of(const Mesh& mesh, const std::vector<Role>& roles, const std::vector<Role>& of_node,
                 Role wanted) {
  Border border;
  for (Eigen::Index t = 0; t < mesh.triangles.cols(); ++t) {
    if (roles.at(mesh.region_of[t]) != Role::free) continue;
    for (int i = 0; i < 3; ++i) {
      const int a = mesh.triangles(i, t), b = mesh.triangles((i + 1) % 3, t);
      if (of_node[a] == wanted && of_node[b] == wanted)
        border.emplace_back(point_of(mesh, a), point_of(mesh, b));
    }
  }
  return border;
}

double part_of_the_way(double from_carried, double from_held) {
  const double s = from_carried / (from_carried + from_held);  // 1 when nothing is held: then nothing moves
  return std::clamp((1 - stiff - s) / (1 - 2 * stiff), 0.0, 1.0);
}

/// 1 for an equilateral triangle, 0 for a flat one, negative for one turned over.
double shape(const Mesh& mesh, const Eigen::Vector3i& corners) {
  const Point a = point_of(mesh, corners[0]), b = point_of(mesh, corners[1]), c = point_of(mesh, corners[2]);
  using detail::operator-;
  const Point ab = b - a, bc = c - b, ca = a - c;
  return 2 * std::sqrt(3.0) * cross(ab, c - a) / (dot(ab, ab) + dot(bc, bc) + dot(ca, ca));
}

}  // namespace

std::optional<Mesh> carried_mesh(const Mesh& mesh, const std::vector<Role>& roles, double shift) {
  const std::vector<Role> of_node = roles_of_nodes(mesh, roles);
  const Border carried = border_of(mesh, roles, of_node, Role::carried),
               held = border_of(mesh, roles, of_node, Role::held);
  Mesh moved = mesh;
  for (int i = 0; i < static_cast<int>(mesh.nodes.cols()); ++i) {
    const Point at = point_of(mesh, i);
    if (of_node[i] == Role::carried)
      moved.nodes(1, i) += shift;
    else if (of_node[i] == Role::free)
      moved.nodes(1, i) += shift * part_of_the_way(distance(carried, at), distance(held, at));
  }
  for (ArcEdge& arc : moved.arcs)
    if (of_node[arc.a] == Role::carried && of_node[arc.b] == Role::carried) arc.centre.z += shift;
  for (Eigen::Index t = 0; t < mesh.triangles.cols(); ++t)
    if (!(shape(moved, moved.triangles.col(t)) >= shape_kept * shape(mesh, mesh.triangles.col(t))))
      return std::nullopt;
  return moved;
}

}  // namespace coilpull
