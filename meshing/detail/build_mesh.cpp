// SPDX-License-Identifier: GPL-3.0-or-later
#include "meshing/detail/build_mesh.hpp"

#include <algorithm>
#include <array>
#include <cmath>
#include <cstdio>

#include "meshing/detail/conformity.hpp"
#include "meshing/detail/node_order.hpp"
#include "meshing/detail/orientation.hpp"
#include "meshing/detail/plane.hpp"
#include "meshing/quality.hpp"

namespace coilpull::detail {
namespace {

std::string region_name(const Section& section, int part) {
  return part < 0 ? std::string(air_name) : section.parts[part].name;
}

Point middle(const Point& a, const Point& b, const Point& c) { return (1. / 3) * (a + b + c); }

/// The reply as triangles that all turn counter-clockwise, with the face of each.
FilledFaces read_triangles(const Section& section, const PlanarMap& map, const std::vector<Point>& points,
                           const MeshReply& reply) {
  if (reply.triangles_of_face.size() != map.faces.size() || reply.triangles.size() % 3 != 0)
    throw UnusableMesh("the reply does not fit the request");
  FilledFaces filled;
  std::size_t next = 0;
  for (std::size_t f = 0; f < map.faces.size(); ++f) {
    const std::int32_t count = reply.triangles_of_face[f];
    const std::string name = region_name(section, map.faces[f].part);
    if (count <= 0) throw UnusableMesh("no triangles in " + name);
    for (std::int32_t i = 0; i < count; ++i, next += 3) {
      if (next + 3 > reply.triangles.size()) throw UnusableMesh("the reply does not fit the request");
      std::array<int, 3> t = {reply.triangles[next], reply.triangles[next + 1], reply.triangles[next + 2]};
      for (const int node : t)
        if (node < 0 || node >= static_cast<int>(points.size()))
          throw UnusableMesh("a triangle of " + name + " has a node that does not exist");
      const int turn = orientation(points[t[0]], points[t[1]], points[t[2]]);
      if (turn == 0)
        throw UnusableMesh("a flat triangle in " + name + " at " +
                           place(middle(points[t[0]], points[t[1]], points[t[2]])));
      if (turn < 0) std::swap(t[1], t[2]);
      filled.triangles.push_back(t);
      filled.face_of.push_back(static_cast<int>(f));
    }
  }
  if (next != reply.triangles.size()) throw UnusableMesh("the reply does not fit the request");
  return filled;
}

/// Area of triangles against the polygon of chords around each face.
void check_areas(const Section& section, const PlanarMap& map, const EdgeMesh& edges,
                 const std::vector<Point>& points, const FilledFaces& filled) {
  std::vector<double> meshed(map.faces.size(), 0), drawn(map.faces.size(), 0);
  for (std::size_t i = 0; i < filled.triangles.size(); ++i) {
    const auto& t = filled.triangles[i];
    meshed[filled.face_of[i]] += cross(points[t[1]] - points[t[0]], points[t[2]] - points[t[0]]) / 2;
  }
  for (std::size_t f = 0; f < map.faces.size(); ++f) {
    const Point origin = map.vertices[map.curves[map.faces[f].loops.front().front().curve].from];
    for (const auto& loop : map.faces[f].loops)
      for (const HalfEdge h : loop)
        for (const int s : edges.of_curve[h.curve]) {
          const Segment& segment = edges.segments[s];
          const double part = cross(points[segment.a] - origin, points[segment.b] - origin) / 2;
          drawn[f] += h.reversed ? -part : part;
        }
    const double rounding = 1e-14 * section.outer.radius * section.outer.radius;
    if (!(std::abs(meshed[f] - drawn[f]) <= 1e-12 * drawn[f] + rounding))
      throw UnusableMesh("the triangles of " + region_name(section, map.faces[f].part) + " do not fill it");
  }
}

void check_quality(const Mesh& mesh, double quality_above) {
  const MeshQuality found = quality(mesh);
  if (found.worst >= quality_above) return;
  const auto corners = mesh.triangles.col(found.worst_triangle);
  const auto at = [&](int k) { return Point{mesh.nodes(0, corners[k]), mesh.nodes(1, corners[k])}; };
  char text[80];
  std::snprintf(text, sizeof text, "a triangle of quality %.3g, below %.3g, in ", found.worst, quality_above);
  throw UnusableMesh(text + mesh.region_names[mesh.region_of[found.worst_triangle]] + " at " +
                     place(middle(at(0), at(1), at(2))));
}

void fill_curves(Mesh& mesh, const PlanarMap& map, const EdgeMesh& edges, const std::vector<int>& number) {
  std::vector<std::pair<int, int>> outer;
  for (const Segment& segment : edges.segments) {
    const Curve& curve = map.curves[segment.curve];
    if (!curve.edge.centre) continue;
    mesh.arcs.push_back({number[segment.a], number[segment.b], *curve.edge.centre});
    if (curve.on_outer) outer.push_back({number[segment.a], number[segment.b]});
  }
  std::sort(outer.begin(), outer.end(),
            [&](const auto& x, const auto& y) { return mesh.nodes(1, x.first) < mesh.nodes(1, y.first); });
  mesh.outer_edges.resize(2, static_cast<Eigen::Index>(outer.size()));
  for (Eigen::Index i = 0; i < mesh.outer_edges.cols(); ++i)
    mesh.outer_edges.col(i) << outer[i].first, outer[i].second;
}

}  // namespace

MeshRequest request_for(const PlanarMap& map, const EdgeMesh& edges) {
  MeshRequest request;
  request.points = edges.points;
  for (const Segment& segment : edges.segments)
    request.lines.insert(request.lines.end(), {segment.a, segment.b});
  for (const Face& face : map.faces) {
    auto& loops = request.faces.emplace_back();
    for (const auto& loop : face.loops) {
      auto& lines = loops.emplace_back();
      for (const HalfEdge h : loop) {
        std::vector<int> segments = edges.of_curve[h.curve];
        if (h.reversed) std::reverse(segments.begin(), segments.end());
        for (const int s : segments) lines.push_back(h.reversed ? -(s + 1) : s + 1);
      }
    }
  }
  return request;
}

Mesh build_mesh(const Section& section, const PlanarMap& map, const EdgeMesh& edges, const MeshReply& reply,
                double quality_above) {
  std::vector<Point> points = edges.points;
  points.insert(points.end(), reply.inner_nodes.begin(), reply.inner_nodes.end());
  for (const Point p : reply.inner_nodes)
    if (!std::isfinite(p.r) || !std::isfinite(p.z)) throw UnusableMesh("a node that is not a finite point");
  const FilledFaces filled = read_triangles(section, map, points, reply);
  if (const auto trouble = find_gap(map, edges, filled))
    throw UnusableMesh(trouble->fact + " at " + place(points[trouble->node]));
  check_areas(section, map, edges, points, filled);

  const NodeOrder order = order_nodes(filled.triangles, points);
  Mesh mesh;
  mesh.nodes.resize(2, order.used);
  for (std::size_t i = 0; i < points.size(); ++i)
    if (order.number[i] >= 0) mesh.nodes.col(order.number[i]) << points[i].r, points[i].z;
  const auto count = static_cast<Eigen::Index>(filled.triangles.size());
  mesh.triangles.resize(3, count);
  mesh.region_of.resize(count);
  const int air = static_cast<int>(section.parts.size());
  for (Eigen::Index t = 0; t < count; ++t) {
    const int from = order.triangles[t];
    for (int k = 0; k < 3; ++k) mesh.triangles(k, t) = order.number[filled.triangles[from][k]];
    const int part = map.faces[filled.face_of[from]].part;
    mesh.region_of[t] = part < 0 ? air : part;
  }
  for (const Region& region : section.parts) mesh.region_names.push_back(region.name);
  mesh.region_names.push_back(air_name);
  mesh.outer_centre_z = section.outer.centre_z;
  mesh.outer_radius = section.outer.radius;
  fill_curves(mesh, map, edges, order.number);
  check_quality(mesh, quality_above);
  return mesh;
}

}  // namespace coilpull::detail
