// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include <Eigen/Core>
#include <optional>
#include <string>
#include <vector>

#include "meshing/section.hpp"

namespace coilpull {

/// A face of a part that a drawing gives one dimension: consecutive edges of its outline on one straight line
/// or one circle. The axis is no face.
struct Face {
  int part;                 ///< place in the list of parts
  std::vector<Edge> edges;  ///< counter-clockwise round the part
  double length = 0;        ///< of all edges [m]
  int before = none,
      after = none;  ///< faces that it meets at its ends; none: it ends on the axis, or closes on itself
  static constexpr int none = -1;

  bool is_arc() const { return edges.front().centre.has_value(); }
  bool is_closed() const;  ///< a full circle
};

/// Faces of all parts, part by part, each part's in the order of its outline.
std::vector<Face> faces_of(const std::vector<Region>& parts);

/// Where a point lies on a face.
struct OnFace {
  double distance;          ///< from the face [m]
  double u;                 ///< share of the face's length before it, 0 ... 1
  Eigen::Vector2d tangent;  ///< unit (r, z), along the outline; the part lies to its left
};
OnFace locate(const Face& face, Point at);

/// What the dimension of a face is called: of a tube or cylinder "inner radius", "outer radius", "radius",
/// "from", "to"; else "cylindrical face", "flat face", "slanted face", "arc radius".
std::string dimension_name(const std::vector<Face>& faces, int face);
/// Whether the part is a tube or cylinder, whose faces have keys of their own in a drawing.
bool has_key(const std::vector<Face>& faces, int face);

/// r of a cylinder, z of a flat, radius of an arc [m]; empty for a slanted face.
std::optional<double> dimension_of(const Face& face);

/// Straight: by which the face is named, and the direction in which its dimension counts.
enum class FaceKind { cylinder, flat, slanted, arc };
FaceKind kind_of(const Face& face);

/// Unit direction in which a face moves when its dimension grows: +r of a cylinder, +z of a flat, outward of
/// a slanted face, away from the centre of an arc. @param on  a point of the face
Eigen::Vector2d growing_direction(const Face& face, const OnFace& on);

}  // namespace coilpull
