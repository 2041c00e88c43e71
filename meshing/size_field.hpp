// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include <vector>

#include "meshing/point.hpp"

namespace coilpull {

/// A place that asks for small triangles: a segment (or a point, from == to).
struct SizeSource {
  Point from;
  Point to;
  double size;    ///< wanted edge length on the segment [m]
  double growth;  ///< by how much the wanted length grows per unit of distance from it [1]
};

/// Wanted edge length of the triangles, as data, so that it can travel to the mesher's process:
///     size(x) = min( largest, min over sources of  size_i + growth_i * distance(x, segment_i) ).
struct SizeField {
  double largest;  ///< [m]
  std::vector<SizeSource> sources;
};

double size_at(const SizeField& field, Point at);  ///< [m]

}  // namespace coilpull
