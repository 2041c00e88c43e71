// SPDX-License-Identifier: GPL-3.0-or-later
#include "apps/output/section_view.hpp"

#include <algorithm>
#include <cmath>
#include <limits>

#include "materials/constants.hpp"

namespace coilpull {
namespace {

/// Points of an edge without its end.
void append_edge(const Edge& edge, std::vector<Point>& points) {
  points.push_back(edge.from);
  if (!edge.centre) return;
  const Point centre = *edge.centre;
  const double ar = edge.from.r - centre.r, az = edge.from.z - centre.z;
  const double br = edge.to.r - centre.r, bz = edge.to.z - centre.z;
  double turn = std::atan2(ar * bz - az * br, ar * br + az * bz);
  if (std::abs(turn) > pi * (1 - 1e-9)) turn = pi;  // half a turn runs counter-clockwise
  const int steps = std::max(2, static_cast<int>(std::ceil(std::abs(turn) / (pi / 120))));
  for (int i = 1; i < steps; ++i) {
    const double angle = turn * i / steps, c = std::cos(angle), s = std::sin(angle);
    points.push_back({centre.r + c * ar - s * az, centre.z + s * ar + c * az});
  }
}

Area area_around(const Line& corners) {
  const double far = std::numeric_limits<double>::infinity();
  Area area{far, -far, far, -far};
  for (const Spot& spot : corners)
    area = {std::min(area.x_from, spot.x), std::max(area.x_to, spot.x), std::min(area.y_from, spot.y),
            std::max(area.y_to, spot.y)};
  return area;
}

bool is_inside(const Line& corners, Spot at) {  // even-odd rule
  bool inside = false;
  for (std::size_t i = 0, j = corners.size() - 1; i < corners.size(); j = i++) {
    const Spot a = corners[i], b = corners[j];
    if ((a.y > at.y) != (b.y > at.y) && at.x < (b.x - a.x) * (at.y - a.y) / (b.y - a.y) + a.x)
      inside = !inside;
  }
  return inside;
}

/// The segment has a point inside the area (Liang and Barsky, ACM Trans. Graph. 3 (1984) 1; from memory).
bool meets(Spot a, Spot b, const Area& area) {
  double from = 0, to = 1;
  const auto cut = [&](double direction, double room) {  // direction * t <= room
    if (direction == 0) return room > 0;
    const double t = room / direction;
    direction > 0 ? to = std::min(to, t) : from = std::max(from, t);
    return from < to;
  };
  return cut(a.x - b.x, a.x - area.x_from) && cut(b.x - a.x, area.x_to - a.x) &&
         cut(a.y - b.y, a.y - area.y_from) && cut(b.y - a.y, area.y_to - a.y);
}

}  // namespace

std::vector<DrawnPart> drawn_parts(const Device& device, double displacement) {
  std::vector<DrawnPart> parts;
  const auto add = [&](const auto& list, PartKind kind) {
    for (const auto& part : list) {
      const bool moves = is_moving(device, part.name);
      parts.push_back({part.name, kind, moves ? moved(part.outline, displacement) : part.outline, moves});
    }
  };
  add(device.cores, PartKind::core);
  add(device.coils, PartKind::coil);
  add(device.magnets, PartKind::magnet);
  return parts;
}

Box box_around(const std::vector<DrawnPart>& parts) {
  const double far = std::numeric_limits<double>::infinity();
  Box all{0, -far, far, -far};
  for (const DrawnPart& part : parts) {
    const Box box = bounding_box(part.outline);
    all = {0, std::max(all.r_to, box.r_to), std::min(all.z_from, box.z_from), std::max(all.z_to, box.z_to)};
  }
  return all;
}

Line on_sheet(const SectionView& view, const Outline& outline, bool mirrored) {
  std::vector<Point> points;
  for (const Edge& edge : outline.edges) append_edge(edge, points);
  Line line;
  for (const Point& point : points) line.push_back(view.spot(mirrored ? -point.r : point.r, point.z));
  return line;
}

std::vector<Line> surface_on_sheet(const SectionView& view, const Outline& outline, bool mirrored) {
  const auto& edges = outline.edges;
  const auto on_axis = [](const Edge& edge) { return edge.from.r == 0 && edge.to.r == 0; };
  const auto inner = std::find_if(edges.begin(), edges.end(), on_axis);
  const std::size_t start = inner == edges.end() ? 0 : static_cast<std::size_t>(inner - edges.begin());
  std::vector<Line> lines;
  bool open = false;
  for (std::size_t i = 0; i < edges.size(); ++i) {
    const Edge& edge = edges[(start + i) % edges.size()];
    if (on_axis(edge)) {
      open = false;
      continue;
    }
    std::vector<Point> points;
    append_edge(edge, points);
    points.push_back(edge.to);
    if (!open) lines.emplace_back();
    open = true;
    for (const Point& point : points)
      lines.back().push_back(view.spot(mirrored ? -point.r : point.r, point.z));
  }
  return lines;
}

Room::Room(Line corners) : corners_(std::move(corners)), around_(area_around(corners_)) {}

bool Room::is_free(const Area& area) const {
  const Spot middle{(area.x_from + area.x_to) / 2, (area.y_from + area.y_to) / 2};
  if (!is_inside(corners_, middle)) return false;
  for (std::size_t i = 0, j = corners_.size() - 1; i < corners_.size(); j = i++)
    if (meets(corners_[i], corners_[j], area)) return false;
  return std::none_of(taken_.begin(), taken_.end(), [&](const Area& other) {
    return area.x_from < other.x_to && other.x_from < area.x_to && area.y_from < other.y_to &&
           other.y_from < area.y_to;
  });
}

Spot Room::middle() const {
  return {(around_.x_from + around_.x_to) / 2, (around_.y_from + around_.y_to) / 2};
}

double Room::thickness() const {
  return std::min(around_.x_to - around_.x_from, around_.y_to - around_.y_from);
}

std::optional<Spot> Room::take(double width, double height, Spot wish) {
  constexpr int steps = 32;  // places tried in each direction, and the wish itself
  double nearest = std::numeric_limits<double>::infinity();
  std::optional<Spot> best;
  const auto area_at = [&](Spot at) {
    return Area{at.x - width / 2, at.x + width / 2, at.y - height / 2, at.y + height / 2};
  };
  const auto consider = [&](Spot at) {
    const double away = std::hypot(at.x - wish.x, at.y - wish.y);
    if (away < nearest && is_free(area_at(at))) nearest = away, best = at;
  };
  consider(wish);
  for (int i = 0; i <= steps && nearest > 0; ++i)
    for (int j = 0; j <= steps; ++j)
      consider({around_.x_from + (around_.x_to - around_.x_from) * i / steps,
                around_.y_from + (around_.y_to - around_.y_from) * j / steps});
  if (best) taken_.push_back(area_at(*best));
  return best;
}

}  // namespace coilpull
