// SPDX-License-Identifier: GPL-3.0-or-later
#include "solver/device/size_wishes.hpp"

#include <algorithm>
#include <cmath>

#include "materials/constants.hpp"

namespace coilpull {
namespace {

/// Edges along a sharp wedge may be this many times as long as the wedge is wide: more makes flat triangles.
constexpr double per_wedge = 2;

double length(const Edge& edge) {
  const double chord = std::hypot(edge.to.r - edge.from.r, edge.to.z - edge.from.z);
  if (!edge.centre) return chord;
  const double radius = std::hypot(edge.from.r - edge.centre->r, edge.from.z - edge.centre->z);
  return 2 * radius * std::asin(std::min(1.0, 0.5 * chord / radius));
}

/// Point at a fraction s of an edge.
Point along(const Edge& edge, double s) {
  if (!edge.centre)
    return {edge.from.r + s * (edge.to.r - edge.from.r), edge.from.z + s * (edge.to.z - edge.from.z)};
  const double ar = edge.from.r - edge.centre->r, az = edge.from.z - edge.centre->z;
  const double br = edge.to.r - edge.centre->r, bz = edge.to.z - edge.centre->z;
  const double turn = s * std::atan2(ar * bz - az * br, ar * br + az * bz);
  return {edge.centre->r + std::cos(turn) * ar - std::sin(turn) * az,
          edge.centre->z + std::sin(turn) * ar + std::cos(turn) * az};
}

/// The edge as straight pieces for the size field.
std::vector<Edge> pieces(const Edge& edge, int count) {
  std::vector<Edge> parts;
  for (int i = 0; i < count; ++i)
    parts.push_back({along(edge, double(i) / count), along(edge, double(i + 1) / count)});
  return parts;
}

bool on_axis(const Edge& edge) { return !edge.centre && edge.from.r == 0 && edge.to.r == 0; }

/// By how much the outline turns at the start of `next` [rad]; where it meets the axis: the tip of the body.
double turn_between(const Edge& before, const Edge& next) {
  const Point a = along(before, 0.999), b = along(next, 0.001), at = next.from;
  double ur = at.r - a.r, uz = at.z - a.z, wr = b.r - at.r, wz = b.z - at.z;
  if (on_axis(before)) ur = wr, uz = -wz;  // the body goes on beyond the axis, mirrored
  if (on_axis(next)) wr = ur, wz = -uz;
  return std::abs(std::atan2(ur * wz - uz * wr, ur * wr + uz * wz));
}

class Wishes {
public:
  Wishes(const Device& device, const std::vector<Region>& parts, const HalfCircle& outer,
         const Resolution& resolution)
      : device_(device), parts_(parts), resolution_(resolution), least_(resolution.least * outer.radius) {
    field_.largest = pi * outer.radius / resolution.outer_arcs / std::sqrt(resolution.fineness);
  }

  void outline(const Region& part) {
    const Box box = bounding_box(part.outline);
    const double thickness = std::min(box.r_to - box.r_from, box.z_to - box.z_from);
    const std::vector<Edge>& edges = part.outline.edges;
    std::vector<double> wish(edges.size());
    for (std::size_t i = 0; i < edges.size(); ++i) {
      wish[i] = std::min(resolution_.per_thickness * thickness, resolution_.per_length * length(edges[i]));
      if (on_axis(edges[i])) continue;
      for (const Edge& piece : pieces(edges[i], edges[i].centre ? 6 : 1))
        put(piece.from, piece.to, wish[i], resolution_.growth);
      gaps(part, edges[i], wish[i]);
    }
    if (is_coil(part)) return;  // a winding's corners leave the field smooth
    for (std::size_t i = 0; i < edges.size(); ++i) {
      const std::size_t before = (i + edges.size() - 1) % edges.size();
      const double turn = turn_between(edges[before], edges[i]);
      if (turn < 5 * pi / 180) continue;  // no corner
      const double near = std::min(wish[before], wish[i]);
      put(edges[i].from, edges[i].from, resolution_.at_corner * near,
          std::min(resolution_.corner_growth, per_wedge * (pi - turn)));
    }
  }

  void point(Point at, double size) { put(at, at, size, resolution_.growth); }
  SizeField field() const { return field_; }

private:
  void put(Point from, Point to, double size, double growth) {
    field_.sources.push_back({from, to, std::max(size / resolution_.fineness, least_ / 10), growth});
  }

  /// Stretches of an edge that face another part across a gap.
  void gaps(const Region& part, const Edge& edge, double wish) {
    constexpr int count = 12;
    const std::vector<Edge> stretch = pieces(edge, count);
    double open_wish = 0;  // of the stretch under way; 0: none
    Point open_from{};
    for (int i = 0; i <= count; ++i) {
      double here = 0;
      if (i < count) {
        double gap = wish;  // as an edge length
        for (const Region& other : parts_) {
          if (other.name == part.name) continue;
          const double between = distance(Outline{{stretch[i]}}, other.outline);
          if (between > 0) gap = std::min(gap, between * per_gap(part, other));
        }
        if (gap < 0.99 * wish) here = std::max(gap, least_);
      }
      if (open_wish > 0 && (here == 0 || std::abs(here / open_wish - 1) > 0.25)) {
        put(open_from, stretch[i - 1].to, open_wish, resolution_.growth);
        open_wish = 0;
      }
      if (here > 0 && open_wish == 0) open_wish = here, open_from = stretch[i].from;
      if (here > 0) open_wish = std::min(open_wish, here);
    }
  }

  bool is_coil(const Region& part) const {
    const auto place = static_cast<std::size_t>(&part - parts_.data());
    return place >= device_.cores.size() && place < device_.cores.size() + device_.coils.size();
  }

  double per_gap(const Region& a, const Region& b) const {
    const bool still = is_moving(device_, a.name) == is_moving(device_, b.name);
    return still && (is_coil(a) || is_coil(b)) ? resolution_.per_coil_gap : resolution_.per_gap;
  }

  const Device& device_;
  const std::vector<Region>& parts_;
  const Resolution& resolution_;
  double least_;
  SizeField field_;
};

}  // namespace

SizeField size_wishes(const Device& device, const std::vector<Region>& parts, const HalfCircle& outer,
                      double displacement, const Resolution& resolution) {
  Wishes wishes(device, parts, outer, resolution);
  for (const Region& part : parts) wishes.outline(part);
  for (const Sensor& sensor : device.sensors)
    wishes.point({sensor.at.r, sensor.at.z + (sensor.moves ? displacement : 0)}, outer.radius / 25);
  return wishes.field();
}

}  // namespace coilpull
