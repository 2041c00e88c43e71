// SPDX-License-Identifier: GPL-3.0-or-later
#include "solver/device/size_wishes.hpp"

#include <algorithm>
#include <cmath>

#include "materials/constants.hpp"
#include "meshing/check_section.hpp"

namespace coilpull {
namespace {

/// Nearest distance of two parts that do not touch [m]: nearer ones are refused, or rounding of contact.
double least_gap(const std::vector<Region>& parts) {
  double widest = 0;
  for (const Region& part : parts) widest = std::max(widest, bounding_box(part.outline).r_to);
  return thinnest * widest;
}

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

/// Factor of a feature; 1 where none is given.
double factor(const std::vector<std::vector<double>>& factors, std::size_t part, std::size_t edge) {
  return factors.empty() ? 1 : factors.at(part).at(edge);
}

/// Wanted length along each edge of a part, its own factor apart.
std::vector<double> plain_wishes(const Region& part, const Resolution& resolution) {
  const Box box = bounding_box(part.outline);
  const double thickness = std::min(box.r_to - box.r_from, box.z_to - box.z_from);
  std::vector<double> wishes;
  for (const Edge& edge : part.outline.edges)
    wishes.push_back(std::min(resolution.per_thickness * thickness, resolution.per_length * length(edge)));
  return wishes;
}

bool is_coil(const Device& device, std::size_t part) {
  return part >= device.cores.size() && part < device.cores.size() + device.coils.size();
}

class Wishes {
public:
  Wishes(const Device& device, const std::vector<Region>& parts, const HalfCircle& outer,
         const Resolution& resolution)
      : device_(device),
        parts_(parts),
        resolution_(resolution),
        least_(resolution.least * outer.radius),
        least_gap_(least_gap(parts)) {
    field_.largest = pi * outer.radius / resolution.outer_arcs / std::sqrt(resolution.fineness);
  }

  void outline(std::size_t part) {
    const std::vector<Edge>& edges = parts_[part].outline.edges;
    const std::vector<double> wish = plain_wishes(parts_[part], resolution_);
    for (std::size_t i = 0; i < edges.size(); ++i) {
      if (on_axis(edges[i])) continue;
      const double own = factor(resolution_.features.edge, part, i);
      for (const Edge& piece : pieces(edges[i], edges[i].centre ? 6 : 1))
        put(piece.from, piece.to, own * wish[i], growth(own));
      gaps(part, edges[i], wish[i], own);
    }
  }

  void corner(const Corner& corner) {
    put(corner.at, corner.at, corner.size, resolution_.corner_growth);
    const double widens = per_wedge * corner.opening;
    if (widens >= resolution_.corner_growth) return;
    const std::vector<Edge>& edges = parts_[corner.part].outline.edges;
    const std::size_t last = (corner.edge + edges.size() - 1) % edges.size();
    const Edge& before = edges[last];
    const auto own = [&](std::size_t edge) { return factor(resolution_.features.edge, corner.part, edge); };
    flank(edges[corner.edge], corner.size, widens, own(corner.edge));
    flank({before.to, before.from, before.centre}, corner.size, widens, own(last));
  }

  void point(Point at, double size) { put(at, at, size, resolution_.growth); }
  SizeField field() const { return field_; }

private:
  /// Away from an edge that is meshed finer than plainly, the mesh grows less as well: rings of triangles
  /// that grow in proportion to their distance keep their share of the error however fine the first one is.
  double growth(double own) const {
    return resolution_.growth * std::min(1.0, own) / std::clamp(resolution_.fineness, 1.0, 1.5);
  }

  void put(Point from, Point to, double size, double growth) {
    field_.sources.push_back({from, to, std::max(size / resolution_.fineness, 1e-2 * least_), growth});
  }

  /// Along a flank of a sharp wedge, from its tip on, edges lengthen as the wedge widens.
  void flank(const Edge& from_tip, double size, double widens, double own) {
    if (on_axis(from_tip)) return;
    constexpr double next = 1.5;
    const double whole = length(from_tip);
    double near = 0, far = size / widens;
    for (; near < whole; near = far, far *= next) {
      const double end = std::min(far, whole);
      put(along(from_tip, near / whole), along(from_tip, end / whole), std::max(size, own * widens * near),
          growth(own));
    }
  }

  /// Stretches of an edge that face another part across a gap.
  void gaps(std::size_t part, const Edge& edge, double wish, double own) {
    constexpr int count = 12;
    const std::vector<Edge> stretch = pieces(edge, count);
    double open_wish = 0;  // of the stretch under way; 0: none
    Point open_from{};
    for (int i = 0; i <= count; ++i) {
      double here = 0;
      if (i < count) {
        double gap = wish;  // as an edge length
        for (std::size_t other = 0; other < parts_.size(); ++other) {
          if (other == part) continue;
          const double between = distance(Outline{{stretch[i]}}, parts_[other].outline);
          if (between > least_gap_) gap = std::min(gap, between * per_gap(part, other));
        }
        if (gap < 0.99 * wish) here = std::max(gap, least_);
      }
      if (open_wish > 0 && (here == 0 || std::abs(here / open_wish - 1) > 0.25)) {
        put(open_from, stretch[i - 1].to, own * open_wish, growth(own));
        open_wish = 0;
      }
      if (here > 0 && open_wish == 0) open_wish = here, open_from = stretch[i].from;
      if (here > 0) open_wish = std::min(open_wish, here);
    }
  }

  double per_gap(std::size_t a, std::size_t b) const {
    const bool still = is_moving(device_, parts_[a].name) == is_moving(device_, parts_[b].name);
    return still && (is_coil(device_, a) || is_coil(device_, b)) ? resolution_.per_coil_gap
                                                                 : resolution_.per_gap;
  }

  const Device& device_;
  const std::vector<Region>& parts_;
  const Resolution& resolution_;
  double least_, least_gap_;
  SizeField field_;
};

/// From a corner of a part to the nearest other steel or magnet that it does not touch there.
double gap_at(Point corner, std::size_t part, const Device& device, const std::vector<Region>& parts) {
  const double least = least_gap(parts);
  double gap = HUGE_VAL;
  for (std::size_t other = 0; other < parts.size(); ++other) {
    if (other == part || is_coil(device, other)) continue;
    const double between = distance(Outline{{{corner, corner}}}, parts[other].outline);
    if (between > least) gap = std::min(gap, between);
  }
  return gap;
}

}  // namespace

std::vector<Corner> corners_of(const Device& device, const std::vector<Region>& parts,
                               const Resolution& resolution) {
  std::vector<Corner> corners;
  for (std::size_t part = 0; part < parts.size(); ++part) {
    if (is_coil(device, part)) continue;
    const std::vector<Edge>& edges = parts[part].outline.edges;
    const std::vector<double> wish = plain_wishes(parts[part], resolution);
    for (std::size_t i = 0; i < edges.size(); ++i) {
      const std::size_t before = (i + edges.size() - 1) % edges.size();
      const double turn = turn_between(edges[before], edges[i]);
      if (turn < 5 * pi / 180) continue;  // no corner
      const double gap = gap_at(edges[i].from, part, device, parts);
      const double size = resolution.at_corner *
                          std::min({wish[before], wish[i], resolution.corner_gaps * gap}) *
                          factor(resolution.features.corner, part, i);
      corners.push_back({part, i, edges[i].from, pi - turn, size});
    }
  }
  return corners;
}

SizeField size_wishes(const Device& device, const std::vector<Region>& parts, const HalfCircle& outer,
                      double displacement, const Resolution& resolution) {
  Wishes wishes(device, parts, outer, resolution);
  for (std::size_t part = 0; part < parts.size(); ++part) wishes.outline(part);
  for (const Corner& corner : corners_of(device, parts, resolution)) wishes.corner(corner);
  for (const FineSpot& spot : resolution.spots) wishes.point(spot.at, spot.size);
  for (const Sensor& sensor : device.sensors)
    wishes.point({sensor.at.r, sensor.at.z + (sensor.moves ? displacement : 0)}, outer.radius / 25);
  return wishes.field();
}

}  // namespace coilpull
