// SPDX-License-Identifier: GPL-3.0-or-later
#include "solver/device/facing_gap.hpp"

#include <cmath>
#include <limits>

namespace coilpull {
namespace {

constexpr double same = 1e-6;  ///< relative: distances and directions nearer than this are one

Eigen::Vector2d vector_of(Point p) { return {p.r, p.z}; }

Eigen::Vector2d outward_of(const Face& face) {
  const Eigen::Vector2d tangent = locate(face, face.edges.front().from).tangent;
  return {tangent.y(), -tangent.x()};
}

/// Distance square to a straight face from what lies opposite: a parallel face, or the crest of an arc.
double square_distance(const Face& straight, const Face& other) {
  const Eigen::Vector2d out = outward_of(straight), from = vector_of(straight.edges.front().from);
  if (other.is_arc()) return out.dot(vector_of(*other.edges.front().centre) - from) - *dimension_of(other);
  if (out.dot(outward_of(other)) > same - 1) return -1;  // not parallel, or back to back
  return out.dot(vector_of(other.edges.front().from) - from);
}

}  // namespace

bool FacingGap::is_axial() const { return std::abs(outward.y()) > 1 - same; }

std::optional<FacingGap> facing_gap(const Device& device, const std::vector<Region>& parts,
                                    const std::vector<Face>& faces) {
  double nearest = std::numeric_limits<double>::infinity();
  std::optional<FacingGap> found;
  for (std::size_t a = 0; a < faces.size(); ++a)
    for (std::size_t b = 0; b < faces.size(); ++b) {
      const Face &moving = faces[a], &fixed = faces[b];
      if (!is_moving(device, parts[moving.part].name) || is_moving(device, parts[fixed.part].name)) continue;
      const double between = distance(Outline{moving.edges}, Outline{fixed.edges});
      if (between < nearest * (1 - same)) nearest = between, found.reset();
      if (found || between > nearest * (1 + same) || (moving.is_arc() && fixed.is_arc())) continue;
      const double square = fixed.is_arc() ? square_distance(moving, fixed) : square_distance(fixed, moving);
      if (std::abs(square - between) > same * between) continue;
      const Eigen::Vector2d outward =
          fixed.is_arc() ? Eigen::Vector2d(-outward_of(moving)) : outward_of(fixed);
      found = FacingGap{static_cast<int>(a), static_cast<int>(b), between, outward};
    }
  return found;
}

}  // namespace coilpull
