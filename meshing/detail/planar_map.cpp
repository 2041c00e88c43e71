// SPDX-License-Identifier: GPL-3.0-or-later
#include "meshing/detail/planar_map.hpp"

#include <algorithm>
#include <cmath>
#include <limits>

#include "meshing/detail/edge_geometry.hpp"
#include "meshing/detail/orientation.hpp"
#include "meshing/detail/plane.hpp"

namespace coilpull::detail {
namespace {

using Loop = std::vector<HalfEdge>;

class FaceTracer {
public:
  explicit FaceTracer(const Arrangement& arrangement)
      : vertices_(arrangement.vertices), curves_(arrangement.curves), leaving_(vertices_.size()) {
    for (int c = 0; c < static_cast<int>(curves_.size()); ++c) {
      leaving_[curves_[c].from].push_back({c, false});
      leaving_[curves_[c].to].push_back({c, true});
    }
    for (std::vector<HalfEdge>& around : leaving_) sort_by_angle(around);
  }

  /// All loops, each with its face on the left.
  std::vector<Loop> loops() const {
    std::vector<Loop> all;
    std::vector<bool> walked(2 * curves_.size(), false);
    for (int c = 0; c < static_cast<int>(curves_.size()); ++c)
      for (const bool reversed : {false, true}) {
        Loop loop;
        for (HalfEdge h = {c, reversed}; !walked[2 * h.curve + h.reversed]; h = next(h)) {
          walked[2 * h.curve + h.reversed] = true;
          loop.push_back(h);
        }
        if (!loop.empty()) all.push_back(loop);
      }
    return all;
  }

private:
  /// Order in which the curves leave the circle around their vertex that half the shortest chord spans.
  /// Within it none ends or crosses, and an arc of at most half a turn leaves it once: no ties between
  /// tangent arcs.
  void sort_by_angle(std::vector<HalfEdge>& around) const {
    double circle = std::numeric_limits<double>::infinity();
    for (const HalfEdge h : around)
      circle = std::min(circle, norm(curves_[h.curve].edge.to - curves_[h.curve].edge.from) / 2);
    std::vector<std::pair<double, HalfEdge>> keyed;
    keyed.reserve(around.size());
    for (const HalfEdge h : around) keyed.push_back({angle_at(h, circle), h});
    std::sort(keyed.begin(), keyed.end(), [](const auto& a, const auto& b) { return a.first < b.first; });
    for (std::size_t i = 0; i < around.size(); ++i) around[i] = keyed[i].second;
  }

  double angle_at(HalfEdge h, double circle) const {
    const Edge& edge = curves_[h.curve].edge;
    const Point start = h.reversed ? edge.to : edge.from, end = h.reversed ? edge.from : edge.to;
    if (!edge.centre) return std::atan2(end.z - start.z, end.r - start.r);
    const double turn = (sweep(edge) > 0) != h.reversed ? 1 : -1;
    const Point tangent = turn * left_of(start - *edge.centre);
    // the chord of length `circle` leaves the tangent by half the angle it spans at the centre
    const double angle = std::atan2(tangent.z, tangent.r) + turn * std::asin(circle / (2 * radius(edge)));
    return std::remainder(angle, 2 * pi);
  }

  HalfEdge next(HalfEdge h) const {  // from the way back, the next clockwise
    const std::vector<HalfEdge>& around = leaving_[h.reversed ? curves_[h.curve].from : curves_[h.curve].to];
    for (std::size_t i = 0; i < around.size(); ++i)
      if (around[i].curve == h.curve && around[i].reversed != h.reversed)
        return around[(i + around.size() - 1) % around.size()];
    return h;
  }

  const std::vector<Point>& vertices_;
  const std::vector<Curve>& curves_;
  std::vector<std::vector<HalfEdge>> leaving_;
};

Edge walked_edge(const Arrangement& a, HalfEdge h) {
  Edge edge = a.curves[h.curve].edge;
  if (h.reversed) std::swap(edge.from, edge.to);
  return edge;
}

double loop_area(const Arrangement& a, const Loop& loop) {
  const Point origin = walked_edge(a, loop.front()).from;
  double sum = 0;
  for (const HalfEdge h : loop) {
    const Edge edge = walked_edge(a, h);
    const double bulge = segment_area(a.curves[h.curve].edge);
    sum += cross(edge.from - origin, edge.to - origin) / 2 + (h.reversed ? -bulge : bulge);
  }
  return sum;
}

/// How often the loop winds around p, which does not lie on it: chord by chord, and once more where p lies
/// between a chord and its arc.
int winding(const Arrangement& a, const Loop& loop, Point p) {
  double angle = 0;
  int extra = 0;
  for (const HalfEdge h : loop) {
    const Edge edge = walked_edge(a, h);
    const Point from = edge.from - p, to = edge.to - p;
    angle += std::atan2(cross(from, to), dot(from, to));
    if (!edge.centre || norm(p - *edge.centre) >= radius(edge)) continue;
    const int turn = (sweep(a.curves[h.curve].edge) > 0) != h.reversed ? 1 : -1;
    if (orientation(edge.from, edge.to, p) == -turn) extra += turn;
  }
  return static_cast<int>(std::lround(angle / (2 * pi))) + extra;
}

/// The connected piece of the drawing each vertex belongs to.
std::vector<int> pieces(const Arrangement& a) {
  std::vector<int> parent(a.vertices.size());
  for (std::size_t i = 0; i < parent.size(); ++i) parent[i] = static_cast<int>(i);
  const auto root = [&](int v) {
    while (parent[v] != v) v = parent[v] = parent[parent[v]];
    return v;
  };
  for (const Curve& curve : a.curves) parent[root(curve.from)] = root(curve.to);
  for (std::size_t i = 0; i < parent.size(); ++i) parent[i] = root(static_cast<int>(i));
  return parent;
}

/// The one part, or nothing, that all sides of the loops facing the face agree on.
int part_of(const Section& section, const Arrangement& a, const std::vector<Loop>& loops, int expected) {
  int part = expected;
  bool known = expected != boundary;
  HalfEdge first = loops.front().front();
  for (const Loop& loop : loops)
    for (const HalfEdge h : loop) {
      const Curve& curve = a.curves[h.curve];
      if (curve.owner() == boundary) continue;  // axis and half circle take what they are given
      const int side = h.reversed ? curve.right : curve.left;
      if (!known) {
        part = side;
        first = h;
        known = true;
      } else if (side != part) {
        const int one = part >= 0 ? part : a.curves[first.curve].owner();
        throw_overlap(section, one, side >= 0 ? side : curve.owner(), point_at(curve.edge, 0.5));
      }
    }
  return known ? part : nothing;
}

}  // namespace

PlanarMap planar_map(const Section& section) {
  check_outlines(section);
  Arrangement a = arrange(section);
  check_crossings(section, a);

  struct Outer {
    double area;
    int piece;
  };
  std::vector<Face> faces;
  std::vector<Outer> outers;
  std::vector<Loop> holes;
  const std::vector<int> piece = pieces(a);
  for (Loop& loop : FaceTracer(a).loops()) {
    const double inside = loop_area(a, loop);
    if (inside <= 0) {
      holes.push_back(std::move(loop));
      continue;
    }
    outers.push_back({inside, piece[a.curves[loop.front().curve].from]});
    faces.push_back({nothing, {std::move(loop)}});
  }
  for (Loop& hole : holes) {
    const int start = a.curves[hole.front().curve].from;
    int around = -1;
    for (int f = 0; f < static_cast<int>(faces.size()); ++f)
      if (outers[f].piece != piece[start] && winding(a, faces[f].loops.front(), a.vertices[start]) != 0 &&
          (around < 0 || outers[f].area < outers[around].area))
        around = f;
    if (around < 0)  // the side of everything that faces away
      part_of(section, a, {hole}, nothing);
    else
      faces[around].loops.push_back(std::move(hole));
  }
  for (Face& face : faces) face.part = part_of(section, a, face.loops, boundary);
  return {std::move(a.vertices), std::move(a.curves), std::move(faces)};
}

}  // namespace coilpull::detail
