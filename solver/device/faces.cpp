// SPDX-License-Identifier: GPL-3.0-or-later
#include "solver/device/faces.hpp"

#include <algorithm>
#include <cmath>
#include <limits>

#include "meshing/detail/edge_geometry.hpp"
#include "meshing/detail/plane.hpp"

namespace coilpull {

using namespace detail;

namespace {

constexpr double same = 1e-9;  ///< relative: directions and centres nearer than this are one

bool on_axis(const Edge& edge) { return !edge.centre && edge.from.r == 0 && edge.to.r == 0; }

Point vector_of(const Edge& edge) { return edge.to - edge.from; }

bool continues(const Edge& edge, const Edge& next) {
  if (on_axis(edge) || on_axis(next) || edge.centre.has_value() != next.centre.has_value()) return false;
  if (edge.centre)
    return norm(*edge.centre - *next.centre) < same * radius(edge) &&
           std::abs(radius(edge) - radius(next)) < same * radius(edge);
  const Point a = vector_of(edge), b = vector_of(next);
  return std::abs(cross(a, b)) < same * norm(a) * norm(b) && dot(a, b) > 0;
}

Eigen::Vector2d tangent_at(const Edge& edge, double t) {
  const Point along = edge.centre
                          ? std::copysign(1.0, sweep(edge)) * left_of(point_at(edge, t) - *edge.centre)
                          : vector_of(edge);
  return Eigen::Vector2d(along.r, along.z).normalized();
}

}  // namespace

bool Face::is_closed() const {
  double turn = 0;
  for (const Edge& edge : edges) turn += sweep(edge);
  return std::abs(turn) > 2 * pi * (1 - same);
}

std::vector<Face> faces_of(const std::vector<Region>& parts) {
  std::vector<Face> faces;
  for (std::size_t p = 0; p < parts.size(); ++p) {
    const std::vector<Edge>& edges = parts[p].outline.edges;
    const std::size_t n = edges.size();
    std::size_t start = 0;  // an edge that does not continue the one before
    while (start < n && continues(edges[(start + n - 1) % n], edges[start])) ++start;
    std::vector<int> face_of(n, Face::none);
    for (std::size_t k = 0; k < n; ++k) {
      const std::size_t i = (start + k) % n;
      if (on_axis(edges[i])) continue;
      if (k == 0 || !continues(edges[(i + n - 1) % n], edges[i])) faces.push_back({static_cast<int>(p), {}});
      faces.back().edges.push_back(edges[i]);
      faces.back().length += length(edges[i]);
      face_of[i] = static_cast<int>(faces.size()) - 1;
    }
    for (std::size_t i = 0; i < n; ++i) {
      const int here = face_of[i], next = face_of[(i + 1) % n];
      if (here == next) continue;
      if (here != Face::none) faces[here].after = next;
      if (next != Face::none) faces[next].before = here;
    }
  }
  return faces;
}

OnFace locate(const Face& face, Point at) {
  OnFace best{std::numeric_limits<double>::infinity(), 0, {0, 0}};
  double before = 0;
  for (const Edge& edge : face.edges) {
    const Nearest here = nearest(edge, at);
    if (here.distance < best.distance) {
      const double t = std::clamp(parameter_of(edge, here.at), 0.0, 1.0);
      best = {here.distance, (before + t * length(edge)) / face.length, tangent_at(edge, t)};
    }
    before += length(edge);
  }
  return best;
}

FaceKind kind_of(const Face& face) {
  if (face.is_arc()) return FaceKind::arc;
  const Eigen::Vector2d tangent = tangent_at(face.edges.front(), 0);
  if (std::abs(tangent.x()) < same) return FaceKind::cylinder;
  return std::abs(tangent.y()) < same ? FaceKind::flat : FaceKind::slanted;
}

bool has_key(const std::vector<Face>& faces, int face) {
  std::size_t cylinders = 0, flats = 0, others = 0;
  for (const Face& one : faces)
    if (one.part == faces[face].part) {
      const FaceKind kind = kind_of(one);
      ++(kind == FaceKind::cylinder ? cylinders : kind == FaceKind::flat ? flats : others);
    }
  return others == 0 && cylinders <= 2 && flats == 2;
}

std::string dimension_name(const std::vector<Face>& faces, int face) {
  const FaceKind kind = kind_of(faces[face]);
  if (has_key(faces, face)) {
    bool alone = true, larger = false;  // than the face of the same kind
    for (std::size_t i = 0; i < faces.size(); ++i) {
      if (faces[i].part != faces[face].part || static_cast<int>(i) == face || kind_of(faces[i]) != kind)
        continue;
      alone = false;
      larger = *dimension_of(faces[face]) > *dimension_of(faces[i]);
    }
    if (kind == FaceKind::flat) return larger ? "to" : "from";
    return alone ? "radius" : larger ? "outer radius" : "inner radius";
  }
  switch (kind) {
    case FaceKind::cylinder:
      return "cylindrical face";
    case FaceKind::flat:
      return "flat face";
    case FaceKind::slanted:
      return "slanted face";
    case FaceKind::arc:
      return "arc radius";
  }
  return "face";
}

std::optional<double> dimension_of(const Face& face) {
  const Edge& edge = face.edges.front();
  switch (kind_of(face)) {
    case FaceKind::cylinder:
      return edge.from.r;
    case FaceKind::flat:
      return edge.from.z;
    case FaceKind::arc:
      return radius(edge);
    case FaceKind::slanted:
      break;
  }
  return {};
}

Eigen::Vector2d growing_direction(const Face& face, const OnFace& on) {
  const Eigen::Vector2d outward(on.tangent.y(), -on.tangent.x());
  switch (kind_of(face)) {
    case FaceKind::cylinder:
      return {1, 0};
    case FaceKind::flat:
      return {0, 1};
    case FaceKind::slanted:
      return outward;
    case FaceKind::arc:
      return sweep(face.edges.front()) > 0 ? outward : Eigen::Vector2d(-outward);
  }
  return outward;
}

}  // namespace coilpull
