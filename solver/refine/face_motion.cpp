// SPDX-License-Identifier: GPL-3.0-or-later
#include "solver/refine/face_motion.hpp"

#include <algorithm>
#include <cmath>
#include <numeric>
#include <stdexcept>

namespace coilpull::detail {
namespace {

constexpr double smooth_below = 0.09;  ///< sine of the angle of a joint that counts as no corner: 5 degrees

/// Growth and shift (a, c) of an arc that moves away from its centre by 1 where the unit vector away from it
/// is n0, and by 0 where it is n1, an angle apart: a shift along the unmoved line; beyond 115 degrees, where
/// that shift would run away, half of it by growing.
Eigen::Vector3d fading(const Eigen::Vector2d& n0, const Eigen::Vector2d& n1, double angle) {
  Eigen::Vector3d motion;
  if (angle > 2)
    motion << 0.5, (n0 - n1) / (2 * (1 - n0.dot(n1)));
  else
    motion << 0, (n0 - n1 * n0.dot(n1)) / (1 - n0.dot(n1) * n0.dot(n1));
  return motion;
}

double whole_angle(const Face& face) {
  const Edge& edge = face.edges.front();
  return face.length / std::hypot(edge.from.r - edge.centre->r, edge.from.z - edge.centre->z);
}

bool contains(const std::vector<int>& list, int what) {
  return std::find(list.begin(), list.end(), what) != list.end();
}

}  // namespace

FaceMotion::FaceMotion(const Mesh& mesh, const Topology& topology, std::vector<Face> faces)
    : faces_(std::move(faces)),
      members_(faces_.size()),
      arcs_(faces_.size()),
      all_arcs_(static_cast<Eigen::Index>(mesh.arcs.size())) {
  gather(mesh, topology);
  group_faces();
}

void FaceMotion::gather(const Mesh& mesh, const Topology& topology) {
  const int air = static_cast<int>(mesh.region_names.size()) - 1;
  Eigen::Matrix2Xi sides = Eigen::Matrix2Xi::Constant(2, topology.edges.cols(), -1);  // regions of each edge
  for (Eigen::Index t = 0; t < topology.triangles.cols(); ++t)
    for (int e = 0; e < 3; ++e) {
      auto side = sides.col(topology.triangle_edges(e, t));
      side[side[0] < 0 ? 0 : 1] = mesh.region_of[t];
    }
  std::vector<std::vector<char>> on_outline(air, std::vector<char>(topology.vertices, 0));
  on_border_.assign(topology.vertices, 0);
  for (Eigen::Index e = 0; e < sides.cols(); ++e) {
    if (sides(1, e) < 0 || sides(0, e) == sides(1, e)) continue;
    for (const int node : topology.edges.col(e)) {
      on_border_[node] = 1;
      for (const int region : sides.col(e))
        if (region != air) on_outline[region][node] = 1;
    }
  }
  for (const std::vector<char>& on : on_outline) {
    outline_nodes_.emplace_back();
    for (int i = 0; i < topology.vertices; ++i)
      if (on[i]) outline_nodes_.back().push_back(i);
  }
  const double near = 1e-9 * mesh.nodes.cwiseAbs().maxCoeff();
  corner_faces_.resize(topology.vertices);
  for (std::size_t f = 0; f < faces_.size(); ++f) {
    for (const int node : outline_nodes_[faces_[f].part]) {
      const OnFace at = locate(faces_[f], {mesh.nodes(0, node), mesh.nodes(1, node)});
      if (at.distance < near) members_[f].push_back({node, at});
    }
    std::sort(members_[f].begin(), members_[f].end(),
              [](const Member& a, const Member& b) { return a.at.u < b.at.u; });
    for (std::size_t k = 0; k < mesh.arcs.size(); ++k) {
      const auto on_face = [&](int node) {
        return std::any_of(members_[f].begin(), members_[f].end(),
                           [&](const Member& m) { return m.node == node; });
      };
      if (faces_[f].is_arc() && on_face(mesh.arcs[k].a) && on_face(mesh.arcs[k].b))
        arcs_[f].push_back(static_cast<int>(k));
    }
    if (members_[f].size() < 2) throw std::logic_error("a face of the drawing has no edge of the mesh on it");
    if (faces_[f].is_closed()) continue;
    for (const bool last : {false, true})
      corner_faces_[end_of(static_cast<int>(f), last).node].push_back(static_cast<int>(f));
  }
}

void FaceMotion::group_faces() {
  const int n = static_cast<int>(faces_.size());
  std::vector<int> group(n);
  std::iota(group.begin(), group.end(), 0);
  for (int a = 0; a < n; ++a)
    for (int b = a + 1; b < n; ++b) {
      if (faces_[a].part == faces_[b].part || faces_[a].is_arc() != faces_[b].is_arc()) continue;
      int shared = 0;
      for (const Member& one : members_[a])
        for (const Member& other : members_[b]) shared += one.node == other.node;
      if (shared >= 2 && group[a] != group[b]) std::replace(group.begin(), group.end(), group[b], group[a]);
    }
  for (int a = 0; a < n; ++a) {
    if (group[a] != a) continue;
    groups_.emplace_back();
    for (int b = a; b < n; ++b)
      if (group[b] == a) groups_.back().push_back(b);
  }
}

const FaceMotion::Member& FaceMotion::end_of(int face, bool last) const {
  return last ? members_[face].back() : members_[face].front();
}

Eigen::Vector2d FaceMotion::direction(int face, const OnFace& on, double sign) const {
  return sign * growing_direction(faces_[face], on);
}

FaceMotion::End FaceMotion::end(int face, bool last, double sign) const {
  const Member& here = end_of(face, last);
  End end{face,      last,
          here.node, direction(face, here.at, sign),
          false,     last ? faces_[face].after : faces_[face].before};
  const Eigen::Vector2d along =
      end.neighbour == Face::none ? Eigen::Vector2d(0, 1) : end_of(end.neighbour, !last).at.tangent;
  const double square = end.asks.dot(along);
  end.smooth = std::abs(square) < smooth_below;
  if (!end.smooth)
    end.asks = along / square;
  else if (faces_[face].is_arc())
    end.asks.setZero();
  return end;
}

/// Of an arc whose radius grows, while what continues it smoothly keeps its line.
Eigen::Vector3d FaceMotion::growing(int face) const {
  Eigen::Vector3d motion(1, 0, 0);
  if (faces_[face].is_closed()) return motion;
  const double angle = whole_angle(faces_[face]);
  const Eigen::Vector2d first = direction(face, end_of(face, false).at, 1),
                        last = direction(face, end_of(face, true).at, 1);
  if (end(face, false, 1).smooth) motion -= fading(first, last, angle);
  if (end(face, true, 1).smooth) motion -= fading(last, first, angle);
  return motion;
}

void FaceMotion::move_arc(int face, const Eigen::Vector3d& by, NodeMotion& motion) const {
  for (const Member& m : members_[face]) {
    const Eigen::Vector2d away = direction(face, m.at, 1);
    motion.nodes.col(m.node) = (by[0] + by.tail<2>().dot(away)) * away;
  }
  for (const int arc : arcs_[face]) motion.arcs.col(arc) = by;
}

/// The neighbour's nodes beyond a moved corner: along it as far as the next corner of any part, or, where it
/// goes on smoothly, as an arc with the face.
void FaceMotion::slide(const End& end, const Eigen::Vector2d& corner, NodeMotion& motion) const {
  if (end.neighbour == Face::none) return;
  const std::vector<Member>& nodes = members_[end.neighbour];
  const bool backward = !end.last;  // away from the corner means towards the neighbour's start
  const auto from_corner = [&](const Member& m) { return backward ? 1 - m.at.u : m.at.u; };
  const Eigen::Vector2d tangent = end_of(end.neighbour, !end.last).at.tangent;
  if (end.smooth) {
    if (!faces_[end.neighbour].is_arc() || faces_[end.face].is_arc()) return;
    const Eigen::Vector2d near = direction(end.neighbour, end_of(end.neighbour, !end.last).at, 1),
                          far = direction(end.neighbour, end_of(end.neighbour, end.last).at, 1);
    return move_arc(end.neighbour, corner.dot(near) * fading(near, far, whole_angle(faces_[end.neighbour])),
                    motion);
  }
  double stop = 1;
  for (const Member& m : nodes)
    if (m.node != end.node && !corner_faces_[m.node].empty()) stop = std::min(stop, from_corner(m));
  for (const Member& m : nodes)
    if (from_corner(m) < stop)
      motion.nodes.col(m.node) = corner.dot(tangent) * (1 - from_corner(m) / stop) * m.at.tangent;
}

/// Mean of what the parts ask for that end at a corner: those that take part in the motion, and 0 of others.
Eigen::Vector2d FaceMotion::agreed(const End& end, const std::vector<End>& ends,
                                   const std::vector<int>& group) const {
  Eigen::Vector2d sum(0, 0);
  int votes = 0;
  std::vector<int> heard;  // parts
  for (const int face : group) heard.push_back(faces_[face].part);
  for (const End& other : ends)
    if (other.node == end.node) sum += other.asks, ++votes;
  for (const int face : corner_faces_[end.node])
    if (!contains(heard, faces_[face].part)) heard.push_back(faces_[face].part), ++votes;
  return sum / votes;
}

NodeMotion FaceMotion::none() const {
  return {Eigen::Matrix2Xd::Zero(2, static_cast<Eigen::Index>(on_border_.size())),
          Eigen::Matrix3Xd::Zero(3, all_arcs_)};
}

NodeMotion FaceMotion::of_group(const std::vector<int>& group) const {
  NodeMotion motion = none();
  const Member& first = members_[group.front()].front();
  const Eigen::Vector2d wanted = direction(group.front(), first.at, 1);
  std::vector<End> ends;
  std::vector<double> signs;  // of each face's own direction in that of the first
  for (const int face : group) {
    const bool opposed = kind_of(faces_[face]) == FaceKind::slanted &&
                         direction(face, members_[face].front().at, 1).dot(wanted) < 0;
    const double sign = opposed ? -1 : 1;
    signs.push_back(sign);
    if (faces_[face].is_closed()) continue;
    for (const bool last : {false, true}) ends.push_back(end(face, last, sign));
  }
  for (const End& one : ends) slide(one, agreed(one, ends, group), motion);
  for (std::size_t k = 0; k < group.size(); ++k) {
    if (faces_[group[k]].is_arc())
      move_arc(group[k], growing(group[k]), motion);
    else
      for (const Member& m : members_[group[k]])
        motion.nodes.col(m.node) = direction(group[k], m.at, signs[k]);
  }
  for (const End& one : ends) motion.nodes.col(one.node) = agreed(one, ends, group);
  return motion;
}

NodeMotion FaceMotion::of_parts(const std::vector<int>& parts) const {
  NodeMotion motion = none();
  for (const int part : parts)
    for (const int node : outline_nodes_[part]) motion.nodes(1, node) = 1;
  for (std::size_t f = 0; f < faces_.size(); ++f)
    if (contains(parts, faces_[f].part))
      for (const int arc : arcs_[f]) motion.arcs(2, arc) = 1;
  return motion;
}

}  // namespace coilpull::detail
