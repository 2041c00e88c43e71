// SPDX-License-Identifier: GPL-3.0-or-later
#include "apps/device_file/read_profile.hpp"

#include <algorithm>
#include <cmath>
#include <utility>

#include "apps/device_file/drawn_outline.hpp"
#include "apps/device_file/keys.hpp"
#include "meshing/bad_section.hpp"
#include "meshing/check_section.hpp"

namespace coilpull {

namespace {

constexpr std::size_t most_points = 1000;
constexpr double same_place = 1e-9;   // of the profile's size
constexpr double same_radius = 1e-6;  // relative; the centre is then moved along the chord by what is left
const char* const point_example = "{ r_mm = 4, z_mm = 0 }";

struct ProfilePoint {
  Point at;
  std::optional<Cut> cut = {};
  std::optional<Quantity> convex = {}, concave = {};  ///< radius of the edge that leads here
  std::optional<Point> through = {};                  ///< a point of the arc that leads here
  std::optional<Point> centre = {};                   ///< of the arc that leads here
  Place place = {};
};

double cross(Point o, Point a, Point b) { return (a.r - o.r) * (b.z - o.z) - (a.z - o.z) * (b.r - o.r); }
double length(Point a, Point b) { return std::hypot(b.r - a.r, b.z - a.z); }

[[noreturn]] void refuse_both(const Quantity& second, const Quantity& first) {
  refuse(second.value.place, "stands beside " + first.value.place.key + " = " + first.value.place.value + ".",
         "Keep one of the two.");
}

double read_r(const Table& table) {
  const auto r = find_length_m(table, "r"), diameter = find_length_m(table, "diameter");
  if (r && diameter) refuse_both(*diameter, *r);
  if (!r && !diameter)
    table.refuse_missing({"r_mm", "r_m", "r_in", "diameter_mm", "diameter_m", "diameter_in"},
                         std::string("A point of a profile is, for example, ") + point_example);
  const Quantity& given = r ? *r : *diameter;
  if (given.si < 0) refuse(given.value.place, "r counts outwards from the axis and is never negative.");
  return r ? r->si : diameter->si / 2;
}

std::optional<Cut> read_cut(const Table& table) {
  const auto chamfer = find_length_m(table, "chamfer"), fillet = find_length_m(table, "fillet");
  if (chamfer && fillet) refuse_both(*fillet, *chamfer);
  if (!chamfer && !fillet) return std::nullopt;
  const Quantity& size = chamfer ? *chamfer : *fillet;
  if (size.si < 0) refuse(size.value.place, "has to be 0 or more.");
  if (size.si == 0) return std::nullopt;
  return Cut{chamfer ? Cut::chamfer : Cut::fillet, size.si, size.value.place};
}

/// <stem>_r_mm and <stem>_z_mm; not beside `other`, another way to give the arc.
std::optional<Point> read_arc_point(const Table& table, const std::string& stem,
                                    const std::optional<Quantity>& other) {
  const auto r = find_length_m(table, stem + "_r"), z = find_length_m(table, stem + "_z");
  for (const auto& given : {r, z})
    if (given && other) refuse_both(*given, *other);
  if (!r && !z) return std::nullopt;
  const std::string advice = "A point has both coordinates.";
  return Point{length_m(table, stem + "_r", advice).si, length_m(table, stem + "_z", advice).si};
}

void read_arc(const Table& table, ProfilePoint& point) {
  point.convex = find_radius_m(table, "convex_");
  point.concave = find_radius_m(table, "concave_");
  if (point.convex && point.concave) refuse_both(*point.concave, *point.convex);
  const auto& radius = point.convex ? point.convex : point.concave;
  if (radius && !(radius->si > 0)) refuse(radius->value.place, "has to be greater than 0.");
  point.through = read_arc_point(table, "through", radius);
  const auto through_r = find_length_m(table, "through_r");
  point.centre = read_arc_point(table, "centre", radius ? radius : through_r);
}

ProfilePoint read_point(const Value& value, const SourceText& text) {
  const Table table = inline_table(value, text, point_example);
  ProfilePoint point;
  point.at = {read_r(table), length_m(table, "z", std::string("For example ") + point_example).si};
  point.cut = read_cut(table);
  read_arc(table, point);
  if (table.has("arc_radius_mm"))
    refuse(
        value.place, "an arc of this radius could bulge to either side.",
        "Write convex_radius_mm where the body bulges out, concave_radius_mm where a hollow is taken out.");
  table.refuse_unread_keys();
  point.place = value.place;
  return point;
}

std::vector<ProfilePoint> read_points(const Value& value, const SourceText& text,
                                      const std::string& example) {
  const toml::array* list = value.node->as_array();
  const std::string advice = "For example " + example;
  if (list == nullptr) refuse(value.place, "needs a list of points.", advice);
  if (list->size() < 3)
    refuse(value.place, "an outline needs at least 3 points.",
           "A full arc gets a point between its ends. " + advice);
  if (list->size() > most_points)
    refuse(value.place, "an outline has at most " + std::to_string(most_points) + " points.",
           "A curve is drawn by a few arcs.");
  std::vector<ProfilePoint> points;
  for (const toml::node& element : *list) {
    Place place = value.place;
    place.key += "[" + std::to_string(points.size() + 1) + "]";
    place.line = static_cast<int>(element.source().begin.line);
    place.value = text.quote(element.source());
    points.push_back(read_point({place, &element}, text));
  }
  return points;
}

/// "profile[3]" of a place inside it or at it.
std::string name_of(const ProfilePoint& point) { return point.place.key; }

DrawnArc arc_of_radius(Point from, Point to, const Quantity& radius, bool bulges_right) {
  const double chord = length(from, to), half = chord / 2;
  if (radius.si < half * (1 - same_place))
    refuse(radius.value.place,
           "an arc of this radius cannot join the two points, which are " + mm_text(chord) + " apart.",
           "It needs a radius of at least " + mm_text(half) + ", half of that.");
  const double to_centre = std::sqrt(std::max(0.0, (radius.si - half) * (radius.si + half)));
  const double side = (bulges_right ? to_centre : -to_centre) / chord;  // the centre lies left of from -> to
  return {{(from.r + to.r) / 2 - side * (to.z - from.z), (from.z + to.z) / 2 + side * (to.r - from.r)},
          bulges_right};
}

DrawnArc arc_through(Point from, const ProfilePoint& to) {
  const Point on = *to.through;
  const double twice_area = cross(from, to.at, on), chord = length(from, to.at);
  if (std::fabs(twice_area) < same_place * chord * std::max(chord, length(from, on)))
    refuse(to.place, "the point to pass through lies on the straight line between the two points: no arc.",
           "Leave it out for a straight edge.");
  // The centre is equally far from all three: relative to `from`, 2 c . (to - from) = |to - from|^2, ...
  const Point a{to.at.r - from.r, to.at.z - from.z}, b{on.r - from.r, on.z - from.z};
  const double aa = a.r * a.r + a.z * a.z, bb = b.r * b.r + b.z * b.z;
  return {
      {from.r + (b.z * aa - a.z * bb) / (2 * twice_area), from.z + (a.r * bb - b.r * aa) / (2 * twice_area)},
      twice_area < 0};
}

DrawnArc arc_about(Point from, const ProfilePoint& to) {
  const Point centre = *to.centre;
  const double first = length(centre, from), second = length(centre, to.at);
  if (!(std::fabs(first - second) <= same_radius * second))
    refuse(to.place,
           "the ends of the arc are " + mm_text(first) + " and " + mm_text(second) + " away from its centre.",
           "Both are equally far: correct one of the three points.");
  const double sine = cross(centre, from, to.at) / (first * second);
  if (std::fabs(sine) < same_place && length(from, to.at) > first)
    refuse(to.place, "half a turn about a centre could go either way.",
           "Give a point of the arc instead, through_r_mm and through_z_mm.");
  return {centre, sine > 0};
}

/// @param inside_left  the body lies left of the way the points are given
DrawnLoop loop_of(const std::vector<ProfilePoint>& points, bool inside_left) {
  std::vector<DrawnPoint> drawn;
  for (std::size_t i = 0; i < points.size(); ++i) {
    const ProfilePoint& to = points[i];
    const Point from = points[(i + points.size() - 1) % points.size()].at;
    DrawnPoint point{to.at, to.cut};
    if (to.convex) point.arc = arc_of_radius(from, to.at, *to.convex, inside_left);
    if (to.concave) point.arc = arc_of_radius(from, to.at, *to.concave, !inside_left);
    if (to.through) point.arc = arc_through(from, to);
    if (to.centre) point.arc = arc_about(from, to);
    drawn.push_back(point);
  }
  return loop_through(drawn);
}

class ProfileCheck {
public:
  ProfileCheck(const std::vector<ProfilePoint>& points, Place whole)
      : points_(points), whole_(std::move(whole)) {
    whole_.value.clear();
    for (const ProfilePoint& a : points) size_ = std::max(size_, length(a.at, points.front().at));
  }

  void points_apart() const {
    for (std::size_t i = 0; i < points_.size(); ++i) {
      const ProfilePoint& before = points_[(i + points_.size() - 1) % points_.size()];
      if (length(before.at, points_[i].at) > same_place * size_) continue;
      if (i == 0)
        refuse(points_.back().place, "is the first point again.",
               "Leave it out: the last point is joined to the first.");
      refuse(points_[i].place, "is the same point as the one before it: an edge without length.");
    }
  }

  void loop(const DrawnLoop& drawn) const {
    const std::vector<Edge>& edges = drawn.outline.edges;
    for (std::size_t j = 0; j < edges.size(); ++j) {
      const double beyond = -bounding_box(Outline{{edges[j]}}).r_from;
      if (beyond > same_place * size_)
        refuse(points_[drawn.point[j]].place,
               "the arc to this point reaches " + mm_text(beyond) + " beyond the axis.");
      for (std::size_t i = 0; i + 1 < j; ++i) {
        if (i == 0 && j + 1 == edges.size()) continue;
        if (distance(Outline{{edges[i]}}, Outline{{edges[j]}}) > same_place * size_) continue;
        refuse(
            points_[drawn.point[j]].place,
            "the edge to this point crosses or touches the edge to " + name_of(points_[drawn.point[i]]) + ".",
            "An outline runs once round the part and never meets itself.");
      }
    }
  }

  /// What only neighbours can do wrong: retrace each other, meet a second time.
  void neighbours(const Outline& outline) const {
    const Box box = bounding_box(outline);
    const Point middle{0, (box.z_from + box.z_to) / 2};
    const double radius = 1.1 * std::hypot(box.r_to, box.z_to - middle.z);
    try {
      check_section({{{"the outline", outline}}, {middle.z, radius}, {radius, {}}});
    } catch (const BadSection& trouble) {
      refuse(whole_, std::string(trouble.what()) + ".");
    }
  }

  void encloses_area(const Outline& outline) const {
    if (std::fabs(area(outline)) < same_place * size_ * size_)
      refuse(whole_, "encloses no area.", "All points lie on one line, or the outline folds back.");
  }

private:
  const std::vector<ProfilePoint>& points_;
  Place whole_;
  double size_ = 0;
};

Outline reversed(const Outline& outline) {
  Outline back;
  for (auto edge = outline.edges.rbegin(); edge != outline.edges.rend(); ++edge)
    back.edges.push_back({edge->to, edge->from, edge->centre});
  return back;
}

}  // namespace

Outline read_profile(const Value& value, const SourceText& text, const std::string& example) {
  const std::vector<ProfilePoint> points = read_points(value, text, example);
  const ProfileCheck check(points, value.place);
  check.points_apart();
  Outline corners;
  for (std::size_t i = 0; i < points.size(); ++i)
    corners.edges.push_back({points[i].at, points[(i + 1) % points.size()].at});

  // Which way round decides where convex and concave arcs bulge, and they in turn may decide which way round.
  const bool guess = area(corners) >= 0;
  DrawnLoop loop = loop_of(points, guess);
  if ((area(loop.outline) > 0) != guess) {
    DrawnLoop other = loop_of(points, !guess);
    if ((area(other.outline) > 0) != guess) loop = std::move(other);
  }
  check.loop(loop);
  check.encloses_area(loop.outline);
  const Outline outline = area(loop.outline) > 0 ? loop.outline : reversed(loop.outline);
  check.neighbours(outline);
  return outline;
}

}  // namespace coilpull
