// SPDX-License-Identifier: GPL-3.0-or-later
#include "apps/device_file/drawn_outline.hpp"

#include <algorithm>
#include <cmath>
#include <cstdio>
#include <utility>

#include "materials/constants.hpp"

namespace coilpull {

namespace {

constexpr double rounding = 1e-15;  // of the numbers that a difference is taken of
constexpr double no_turn = 1e-6;    // [rad] corners flatter than this have nothing to cut
constexpr double used_up = 1e-9;    // of an edge: what cuts leave of it when they were meant to meet
constexpr double half_turn = 1e-6;  // [rad] arcs nearer to half a turn than this are split in two

double dot(Point a, Point b) { return a.r * b.r + a.z * b.z; }
double cross(Point a, Point b) { return a.r * b.z - a.z * b.r; }
double length(Point a, Point b) { return std::hypot(b.r - a.r, b.z - a.z); }
Point ahead(Point from, Point direction, double by) {
  return {from.r + by * direction.r, from.z + by * direction.z};
}
Point direction(Point from, Point to) {
  const double all = length(from, to);
  return {(to.r - from.r) / all, (to.z - from.z) / all};
}

/// The centre moved along the chord onto the perpendicular through its middle: both ends are equally far. One
/// that lies there to rounding stays as it is, so that an arc written out with its centre reads back to the
/// last bit.
Point centred(Point from, Point to, Point centre) {
  const Point along = direction(from, to);
  const Point middle{(from.r + to.r) / 2, (from.z + to.z) / 2};
  const double off = dot({middle.r - centre.r, middle.z - centre.z}, along);
  double numbers = 0;
  for (const Point point : {from, to, centre}) numbers += std::fabs(point.r) + std::fabs(point.z);
  return std::fabs(off) <= rounding * numbers ? centre : ahead(centre, along, off);
}

bool on_axis(Point a, Point b) { return a.r == 0 && b.r == 0; }

/// How a corner is cut, per unit of the cut's size.
struct Corner {
  double along_in = 0, along_out = 0;  ///< taken off the edges before and after it
  double turn = 0;                     ///< of the outline, counter-clockwise [rad]
  bool is_tip = false;                 ///< between the axis and an edge of the body
};

class Loop {
public:
  explicit Loop(const std::vector<DrawnPoint>& points) : points_(points) {
    for (std::size_t i = 0; i < size(); ++i) corners_.push_back(corner(i));
    for (std::size_t i = 0; i < size(); ++i) refuse_cuts_that_do_not_fit(i);
  }

  DrawnLoop loop() && {
    for (std::size_t i = 0; i < size(); ++i) {
      add_edge(i);
      add_cut(i);
    }
    close_gaps();
    return std::move(loop_);
  }

private:
  std::size_t size() const { return points_.size(); }
  std::size_t after(std::size_t i) const { return (i + 1) % size(); }
  std::size_t before(std::size_t i) const { return (i + size() - 1) % size(); }
  Point at(std::size_t i) const { return points_[i].at; }

  Corner corner(std::size_t i) const {
    if (!points_[i].cut) return {};
    const Cut& cut = *points_[i].cut;
    if (points_[i].arc || points_[after(i)].arc)
      refuse(cut.place, "one of the edges that meet here is an arc.",
             "A chamfer or a fillet joins two straight edges: draw this corner's own points.");
    Point in = direction(at(before(i)), at(i)), out = direction(at(i), at(after(i)));
    const bool axis_in = on_axis(at(before(i)), at(i)), axis_out = on_axis(at(i), at(after(i)));
    if (axis_in != axis_out) {  // the body goes on beyond the axis, mirrored
      if (axis_in) in = {out.r, -out.z};
      if (axis_out) out = {in.r, -in.z};
    }
    Corner corner{1, 1, std::atan2(cross(in, out), dot(in, out)), axis_in != axis_out};
    if (std::fabs(corner.turn) < no_turn)
      refuse(cut.place, "the outline does not turn at " + place_text(at(i)) + ": there is no corner to cut.");
    if (corner.is_tip && cut.kind == Cut::chamfer)
      refuse(cut.place, "at " + place_text(at(i)) + " the outline leaves the axis: a chamfer has no place.",
             "Draw the flat of a blunt tip as an edge of its own, or round the tip by a fillet.");
    if (cut.kind == Cut::chamfer) return corner;
    const double half = std::fabs(corner.turn) / 2;
    corner.along_in = corner.along_out = std::tan(half);
    if (!corner.is_tip) return corner;
    const Point on = at(axis_in ? before(i) : after(i)), off = at(axis_in ? after(i) : before(i));
    const bool solid = (on.z - at(i).z) * (off.z - at(i).z) > 0;  // else the bottom of a hole: it fills up
    (axis_in ? corner.along_in : corner.along_out) = (solid ? 1 : -1) * (1 / std::cos(half) - 1);
    return corner;
  }

  double cut_size(std::size_t i) const { return points_[i].cut ? points_[i].cut->size : 0; }

  bool same_key(std::size_t i, const Cut& cut) const {
    return points_[i].cut && points_[i].cut->place.key == cut.place.key &&
           points_[i].cut->place.line == cut.place.line;
  }

  /// The largest size that the key of this cut may have, its other corners and other keys' cuts as they are.
  double largest(const Cut& cut) const {
    double most = 1e300;
    for (std::size_t i = 0; i < size(); ++i) {
      if (points_[after(i)].arc) continue;
      double left = length(at(i), at(after(i))), share = 0;
      for (const auto& [end, along] :
           {std::pair{i, corners_[i].along_out}, std::pair{after(i), corners_[after(i)].along_in}})
        same_key(end, cut) ? share += along : left -= along * cut_size(end);
      if (share > 0) most = std::min(most, left / share);
    }
    return most;
  }

  void refuse_cuts_that_do_not_fit(std::size_t i) const {
    if (points_[after(i)].arc) return;
    const double all = length(at(i), at(after(i)));
    const double first = corners_[i].along_out * cut_size(i);
    const double second = corners_[after(i)].along_in * cut_size(after(i));
    if (first + second <= (1 + used_up) * all) return;
    const Cut& cut = *points_[first >= second ? i : after(i)].cut;
    const double most = largest(cut);
    const std::string edge = "the edge from " + place_text(at(i)) + " to " + place_text(at(after(i))) +
                             " is only " + mm_text(all) + " long";
    refuse(cut.place, "does not fit: " + edge + ".",
           most > 0
               ? "The largest that fits here is " + mm_text(std::floor(1e7 * most * (1 + 1e-12)) / 1e7) + "."
               : "The cut at its other end leaves no room.");
  }

  /// Where the edge into a point ends and the edge out of it begins, once the corner is cut.
  Point end_of_edge_into(std::size_t i) const {
    if (!points_[i].cut) return at(i);
    const double by = corners_[i].along_in * cut_size(i);
    return ahead(at(i), direction(at(i), at(before(i))), by);
  }
  Point start_of_edge_out_of(std::size_t i) const {
    if (!points_[i].cut) return at(i);
    const double by = corners_[i].along_out * cut_size(i);
    return ahead(at(i), direction(at(i), at(after(i))), by);
  }

  void add(std::size_t point, const Edge& edge) {
    loop_.outline.edges.push_back(edge);
    loop_.point.push_back(point);
  }

  void add_edge(std::size_t i) {
    const Point from = start_of_edge_out_of(before(i)), to = end_of_edge_into(i);
    if (points_[i].arc)
      add_arc(i, from, to, *points_[i].arc);
    else if (length(from, to) > used_up * length(at(before(i)), at(i)))
      add(i, {from, to});
  }

  void add_cut(std::size_t i) {
    if (!points_[i].cut) return;
    const Point from = end_of_edge_into(i), to = start_of_edge_out_of(i);
    const Cut& cut = *points_[i].cut;
    if (cut.kind == Cut::chamfer) return add(i, {from, to});
    const bool from_axis = corners_[i].is_tip && on_axis(at(before(i)), at(i));
    const Point touching = from_axis ? to : from;
    const Point along = from_axis ? direction(at(i), at(after(i))) : direction(at(before(i)), at(i));
    const double side = corners_[i].turn > 0 ? cut.size : -cut.size;
    const Point centre{touching.r - side * along.z, touching.z + side * along.r};
    add_arc(i, from, to, {centre, corners_[i].turn > 0});
  }

  void add_arc(std::size_t i, Point from, Point to, const DrawnArc& arc) {
    const Point centre = centred(from, to, arc.centre);
    const Point a{from.r - centre.r, from.z - centre.z}, b{to.r - centre.r, to.z - centre.z};
    double angle = std::atan2(cross(a, b), dot(a, b));
    if (arc.counter_clockwise && angle <= 0) angle += 2 * pi;
    if (!arc.counter_clockwise && angle >= 0) angle -= 2 * pi;
    if (std::fabs(angle) < pi - half_turn) return add(i, {from, to, centre});
    const double c = std::cos(angle / 2), s = std::sin(angle / 2);
    const Point middle{centre.r + c * a.r - s * a.z, centre.z + s * a.r + c * a.z};
    add(i, {from, middle, centred(from, middle, centre)});
    add(i, {middle, to, centred(middle, to, centre)});
  }

  /// Each edge starts where the one before ends, to the last bit, also over edges that were used up.
  void close_gaps() {
    std::vector<Edge>& edges = loop_.outline.edges;
    for (std::size_t i = 0; i < edges.size(); ++i) {
      const Point end = edges[(i + edges.size() - 1) % edges.size()].to;
      if (edges[i].from == end) continue;
      edges[i].from = end;
      if (edges[i].centre) edges[i].centre = centred(end, edges[i].to, *edges[i].centre);
    }
  }

  const std::vector<DrawnPoint>& points_;
  std::vector<Corner> corners_;
  DrawnLoop loop_;
};

}  // namespace

DrawnLoop loop_through(const std::vector<DrawnPoint>& points) { return Loop(points).loop(); }

std::string mm_text(double metres) {
  char words[40];
  std::snprintf(words, sizeof words, "%.6g mm", 1000 * metres + 0.0);
  return words;
}

std::string place_text(Point at) {
  char words[80];
  std::snprintf(words, sizeof words, "r = %.6g, z = %.6g mm", 1000 * at.r + 0.0, 1000 * at.z + 0.0);
  return words;
}

}  // namespace coilpull
