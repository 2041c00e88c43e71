// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include <vector>

#include "meshing/detail/section_words.hpp"
#include "meshing/section.hpp"

namespace coilpull::detail {

inline constexpr int nothing = -2;  ///< in the place of a part's index: no part on that side

/// A piece of the drawing between two vertices with no vertex between. edge.from and .to are the vertices.
struct Curve {
  int from;
  int to;
  Edge edge;
  int left = nothing;   ///< part on the left, walking from -> to
  int right = nothing;  ///< part on the right
  bool on_outer = false;
  int owner() const { return left >= 0 ? left : right >= 0 ? right : boundary; }
  bool meets(const Curve& other) const {  ///< at an end
    return from == other.from || from == other.to || to == other.from || to == other.to;
  }
};

/// The drawing with every edge split at every vertex on it and coincident pieces made one.
/// The coordinates of the vertices are those drawn, to the last bit (on the axis: exactly 0).
struct Arrangement {
  std::vector<Point> vertices;
  std::vector<Curve> curves;
};

/// @throws BadSection  unless each outline by itself, and the half circle, can be meshed; parts unseen by
/// each other
void check_outlines(const Section& section);

/// @throws BadSection  when two parts lie on the same side of one edge
Arrangement arrange(const Section& section);

/// @throws BadSection  when curves cross, or are nearer than can be meshed
void check_crossings(const Section& section, const Arrangement& arrangement);

}  // namespace coilpull::detail
