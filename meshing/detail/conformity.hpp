// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include <array>
#include <optional>
#include <string>
#include <vector>

#include "meshing/detail/edge_mesh.hpp"

namespace coilpull::detail {

struct FilledFaces {
  std::vector<std::array<int, 3>> triangles;  ///< counter-clockwise
  std::vector<int> face_of;                   ///< per triangle
};

struct Gap {
  std::string fact;
  int node;  ///< where
};

/// The first edge that has not exactly the triangles beside it that it must have: those of its two faces on a
/// curve (one, on the axis and the half circle), two of one face elsewhere.
std::optional<Gap> find_gap(const PlanarMap& map, const EdgeMesh& edges, const FilledFaces& filled);

}  // namespace coilpull::detail
