// SPDX-License-Identifier: GPL-3.0-or-later
#include "meshing/detail/edge_geometry.hpp"

#include <algorithm>
#include <cmath>
#include <vector>

#include "meshing/detail/orientation.hpp"
#include "meshing/detail/plane.hpp"

namespace coilpull::detail {
namespace {

bool within(const Edge& edge, Point at) {
  const double t = parameter_of(edge, at);
  return t >= 0 && t <= 1;
}

std::vector<Point> line_meets_line(const Edge& a, const Edge& b) {
  const int side_from = orientation(a.from, a.to, b.from), side_to = orientation(a.from, a.to, b.to);
  if (side_from * side_to >= 0) return {};
  if (orientation(b.from, b.to, a.from) * orientation(b.from, b.to, a.to) >= 0) return {};
  const double before = std::abs(cross(a.to - a.from, b.from - a.from));
  const double after = std::abs(cross(a.to - a.from, b.to - a.from));
  const double all = before + after;
  return {b.from + (all > 0 ? before / all : 0.5) * (b.to - b.from)};
}

std::vector<Point> line_meets_arc(const Edge& line, const Edge& arc) {
  const Point along = (1 / norm(line.to - line.from)) * (line.to - line.from);
  const Point foot = line.from + dot(*arc.centre - line.from, along) * along;
  const double away = norm(*arc.centre - foot), size = radius(arc);
  if (away > size) return {};
  const double half = std::sqrt((size - away) * (size + away));
  std::vector<Point> meetings;
  for (const Point p : {foot - half * along, foot + half * along})
    if (within(line, p) && within(arc, p)) meetings.push_back(p);
  return meetings;
}

std::vector<Point> arc_meets_arc(const Edge& a, const Edge& b) {
  const Point between = *b.centre - *a.centre;
  const double d = norm(between), ra = radius(a), rb = radius(b);
  if (d == 0 || d > ra + rb || d < std::abs(ra - rb)) return {};
  const double along = (d + (ra - rb) * (ra + rb) / d) / 2;
  const double half = std::sqrt(std::max(0.0, (ra - along) * (ra + along)));
  const Point unit = (1 / d) * between, foot = *a.centre + along * unit;
  std::vector<Point> meetings;
  for (const Point p : {foot - half * left_of(unit), foot + half * left_of(unit)})
    if (within(a, p) && within(b, p)) meetings.push_back(p);
  return meetings;
}

std::vector<Point> meetings(const Edge& a, const Edge& b) {
  if (a.centre && b.centre) return arc_meets_arc(a, b);
  if (a.centre) return line_meets_arc(b, a);
  return b.centre ? line_meets_arc(a, b) : line_meets_line(a, b);
}

/// Points of the arc where the distance to the other edge may be least, apart from its ends.
std::vector<Point> facing_points(const Edge& arc, const Edge& other) {
  const Point centre = *arc.centre;
  const Point target = other.centre ? *other.centre : on_segment(other.from, other.to, centre);
  const double away = norm(target - centre);
  if (away == 0) return {};
  std::vector<Point> points;
  for (const double side : {-1.0, 1.0}) {
    const Point p = centre + (side * radius(arc) / away) * (target - centre);
    if (within(arc, p)) points.push_back(p);
  }
  return points;
}

}  // namespace

double radius(const Edge& arc) { return (norm(arc.from - *arc.centre) + norm(arc.to - *arc.centre)) / 2; }

double sweep(const Edge& edge) {
  if (!edge.centre) return 0;
  const Point from = edge.from - *edge.centre, to = edge.to - *edge.centre;
  const double angle = std::atan2(cross(from, to), dot(from, to));
  return std::abs(angle) > pi - 1e-9 ? pi : angle;
}

double length(const Edge& edge) {
  return edge.centre ? radius(edge) * std::abs(sweep(edge)) : norm(edge.to - edge.from);
}

double segment_area(const Edge& edge) {
  if (!edge.centre) return 0;
  const double a = sweep(edge), square = a * a, r = radius(edge);
  // sin a = a - a^3/6 + ...: below 0.1 the difference is taken from the series, next term 3e-15 of the sum
  const double difference =
      std::abs(a) < 0.1 ? a * square * (1. / 6 - square * (1. / 120 - square * (1. / 5040 - square / 362880)))
                        : a - std::sin(a);
  return r * r * difference / 2;
}

Point point_at(const Edge& edge, double t) {
  if (t <= 0) return edge.from;
  if (t >= 1) return edge.to;
  if (!edge.centre) return edge.from + t * (edge.to - edge.from);
  const Point from = edge.from - *edge.centre;
  const double r_from = norm(from), r_to = norm(edge.to - *edge.centre);
  const double angle = t * sweep(edge), scale = 1 + t * (r_to / r_from - 1);
  return *edge.centre + scale * (std::cos(angle) * from + std::sin(angle) * left_of(from));
}

double parameter_of(const Edge& edge, Point at) {
  if (!edge.centre) {
    const Point along = edge.to - edge.from;
    return dot(at - edge.from, along) / dot(along, along);
  }
  const double all = sweep(edge), turn = all < 0 ? -1 : 1;
  const Point from = edge.from - *edge.centre, p = at - *edge.centre;
  double angle = turn * std::atan2(cross(from, p), dot(from, p));  // counted in the direction of the arc
  if (angle < std::abs(all) / 2 - pi) angle += 2 * pi;             // cut the circle opposite the arc's middle
  return angle / std::abs(all);
}

Box box_of(const Edge& edge) {
  Box box = {std::min(edge.from.r, edge.to.r), std::max(edge.from.r, edge.to.r),
             std::min(edge.from.z, edge.to.z), std::max(edge.from.z, edge.to.z)};
  if (!edge.centre) return box;
  const Point c = *edge.centre;
  const double size = radius(edge);
  if (within(edge, {c.r + size, c.z})) box.r_to = std::max(box.r_to, c.r + size);
  if (within(edge, {c.r - size, c.z})) box.r_from = std::min(box.r_from, c.r - size);
  if (within(edge, {c.r, c.z + size})) box.z_to = std::max(box.z_to, c.z + size);
  if (within(edge, {c.r, c.z - size})) box.z_from = std::min(box.z_from, c.z - size);
  return box;
}

Nearest nearest(const Edge& edge, Point to) {
  if (!edge.centre) {
    const Point at = on_segment(edge.from, edge.to, to);
    return {norm(to - at), at};
  }
  const double away = norm(to - *edge.centre), size = radius(edge);
  if (away > 0 && within(edge, to))
    return {std::abs(away - size), *edge.centre + (size / away) * (to - *edge.centre)};
  if (away == 0) return {size, point_at(edge, 0.5)};
  const double from = norm(to - edge.from), end = norm(to - edge.to);
  return from <= end ? Nearest{from, edge.from} : Nearest{end, edge.to};
}

Nearest nearest(const Edge& edge, const Edge& to) {
  if (const auto points = meetings(edge, to); !points.empty()) return {0, points.front()};
  Nearest best = nearest(edge, to.from);
  const auto take = [&](const Nearest& candidate) {
    if (candidate.distance < best.distance) best = candidate;
  };
  take(nearest(edge, to.to));
  take({nearest(to, edge.from).distance, edge.from});
  take({nearest(to, edge.to).distance, edge.to});
  if (edge.centre)
    for (const Point p : facing_points(edge, to)) take({nearest(to, p).distance, p});
  if (to.centre)
    for (const Point p : facing_points(to, edge)) take(nearest(edge, p));
  return best;
}

bool boxes_apart(const Box& a, const Box& b, double by) {
  return a.r_from > b.r_to + by || b.r_from > a.r_to + by || a.z_from > b.z_to + by || b.z_from > a.z_to + by;
}

}  // namespace coilpull::detail
