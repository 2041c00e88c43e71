// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include <vector>

#include "meshing/detail/arrangement.hpp"

namespace coilpull::detail {

/// A curve walked in one direction.
struct HalfEdge {
  int curve;
  bool reversed;
};

/// A connected area of one part, or of air. Loops have the face on their left: the first runs around it
/// counter-clockwise, the others around its holes, clockwise.
struct Face {
  int part;  ///< index, or nothing: air
  std::vector<std::vector<HalfEdge>> loops;
};

/// The half disc cut into faces by everything drawn in it.
struct PlanarMap {
  std::vector<Point> vertices;
  std::vector<Curve> curves;
  std::vector<Face> faces;
};

/// @throws BadSection  everything that check_section() refuses
PlanarMap planar_map(const Section& section);

}  // namespace coilpull::detail
