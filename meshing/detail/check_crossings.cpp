// SPDX-License-Identifier: GPL-3.0-or-later
#include <optional>

#include "meshing/check_section.hpp"
#include "meshing/detail/arrangement.hpp"
#include "meshing/detail/edge_geometry.hpp"
#include "meshing/detail/plane.hpp"

namespace coilpull::detail {
namespace {

/// Where the whole lines or circles of two edges that meet at v meet again; nothing when both are straight.
std::optional<Point> second_meeting(const Edge& a, const Edge& b, Point v) {
  if (!a.centre && !b.centre) return {};
  if (a.centre && b.centre) {  // v mirrored at the line of centres
    const double apart = norm(*b.centre - *a.centre);
    if (apart == 0) return {};
    const Point normal = (1 / apart) * left_of(*b.centre - *a.centre);
    return v - (2 * dot(v - *a.centre, normal)) * normal;
  }
  const Edge& line = a.centre ? b : a;
  const Point centre = a.centre ? *a.centre : *b.centre;
  const Point along = (1 / norm(line.to - line.from)) * (line.to - line.from);
  return v + (2 * dot(centre - v, along)) * along;
}

class CrossingCheck {
public:
  CrossingCheck(const Section& section, const Arrangement& arrangement)
      : section_(section), vertices_(arrangement.vertices), thin_(thinnest * section.outer.radius) {}

  void pair(const Curve& a, const Curve& b) const {
    int shared = 0;
    for (const int v : {a.from, a.to})
      if (v == b.from || v == b.to) {
        ++shared;
        meet_again(a, b, v);
      }
    if (shared == 0) return apart(a, b, nearest(a.edge, b.edge));
    if (shared == 2) return apart(a, b, nearest(b.edge, point_at(a.edge, 0.5)));
    for (const int v : {a.from, a.to})
      if (v != b.from && v != b.to) apart(a, b, nearest(b.edge, vertices_[v]));
    for (const int v : {b.from, b.to})
      if (v != a.from && v != a.to) apart(a, b, nearest(a.edge, vertices_[v]));
  }

private:
  void apart(const Curve& a, const Curve& b, const Nearest& found) const {
    if (found.distance == 0) throw_crossing(section_, a.owner(), b.owner(), found.at);
    if (found.distance < thin_) throw_near_touch(section_, a.owner(), b.owner(), found.at, found.distance);
  }

  void meet_again(const Curve& a, const Curve& b, int v) const {
    const auto again = second_meeting(a.edge, b.edge, vertices_[v]);
    if (!again) return;
    for (const int end : {a.from, a.to, b.from, b.to})
      if (norm(*again - vertices_[end]) < thin_) return;
    const double same = 1e-10 * section_.outer.radius;
    if (nearest(a.edge, *again).distance < same && nearest(b.edge, *again).distance < same)
      throw_crossing(section_, a.owner(), b.owner(), *again);
  }

  const Section& section_;
  const std::vector<Point>& vertices_;
  double thin_;
};

}  // namespace

void check_crossings(const Section& section, const Arrangement& arrangement) {
  const CrossingCheck check(section, arrangement);
  std::vector<Box> boxes;
  for (const Curve& curve : arrangement.curves) boxes.push_back(box_of(curve.edge));
  for (std::size_t i = 0; i < boxes.size(); ++i)
    for (std::size_t j = 0; j < i; ++j)
      if (!boxes_apart(boxes[i], boxes[j], thinnest * section.outer.radius))
        check.pair(arrangement.curves[i], arrangement.curves[j]);
}

}  // namespace coilpull::detail
