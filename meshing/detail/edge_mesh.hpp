// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include <vector>

#include "meshing/detail/planar_map.hpp"

namespace coilpull::detail {

/// A mesh edge on a curve, in the curve's direction.
struct Segment {
  int a;
  int b;
  int curve;
};

/// The curves of a map cut into mesh edges. The points begin with the vertices of the map.
struct EdgeMesh {
  std::vector<Point> points;
  std::vector<Segment> segments;
  std::vector<std::vector<int>> of_curve;  ///< the segments of each curve, in its order
};

/// How a mesh may depart from the sizes asked for.
struct Variation {
  double scale = 1;  ///< of all sizes
  unsigned seed =
      1;  ///< 1: even spacing; other seeds move the nodes on curves and the sizes by a few per cent
};

/// Sizes times the scale and, but for seed 1, a factor between 0.97 and 1.03 that the seed decides. Growth is
/// held below 0.6; the sources come sorted, those that ask for least first.
SizeField varied(const SizeField& sizes, const Variation& variation);

/// What the curves are cut for.
struct CutWishes {
  SizeField sizes;
  unsigned seed = 1;
  std::vector<std::vector<Edge>> across =
      {};                   ///< per curve: what it faces across a gap or a wall; empty: nothing
  double most_per_gap = 0;  ///< edges are at most that many times as long as the gap is wide
};

/// Cuts every curve so that each edge is as long as wished where it lies, or shorter: arcs turn at most 30
/// degrees an edge, and their chords keep clear of whatever lies near the arc.
/// @throws MeshingFailed  when the sizes ask for millions of edges
EdgeMesh mesh_edges(const PlanarMap& map, const CutWishes& wishes);

}  // namespace coilpull::detail
