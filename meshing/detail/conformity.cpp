// SPDX-License-Identifier: GPL-3.0-or-later
#include "meshing/detail/conformity.hpp"

#include <algorithm>

namespace coilpull::detail {
namespace {

/// What lies left of a directed edge.
struct Side {
  int low, high;  ///< node numbers
  bool downward;  ///< walked from high to low
  int face;
  bool operator<(const Side& other) const {
    return std::array{low, high, int{downward}, face} <
           std::array{other.low, other.high, int{other.downward}, other.face};
  }
  bool same_place(const Side& other) const {
    return low == other.low && high == other.high && downward == other.downward;
  }
};

Side side_of(int from, int to, int face) { return {std::min(from, to), std::max(from, to), from > to, face}; }

std::vector<Side> sides_of_triangles(const FilledFaces& filled) {
  std::vector<Side> sides;
  sides.reserve(3 * filled.triangles.size());
  for (std::size_t i = 0; i < filled.triangles.size(); ++i)
    for (int k = 0; k < 3; ++k)
      sides.push_back(side_of(filled.triangles[i][k], filled.triangles[i][(k + 1) % 3], filled.face_of[i]));
  std::sort(sides.begin(), sides.end());
  return sides;
}

std::vector<Side> sides_of_curves(const PlanarMap& map, const EdgeMesh& edges) {
  std::vector<Side> sides;
  for (std::size_t f = 0; f < map.faces.size(); ++f)
    for (const auto& loop : map.faces[f].loops)
      for (const HalfEdge h : loop)
        for (const int s : edges.of_curve[h.curve]) {
          const Segment& segment = edges.segments[s];
          sides.push_back(h.reversed ? side_of(segment.b, segment.a, static_cast<int>(f))
                                     : side_of(segment.a, segment.b, static_cast<int>(f)));
        }
  std::sort(sides.begin(), sides.end());
  return sides;
}

}  // namespace

std::optional<Gap> find_gap(const PlanarMap& map, const EdgeMesh& edges, const FilledFaces& filled) {
  const std::vector<Side> have = sides_of_triangles(filled), curves = sides_of_curves(map, edges);
  for (std::size_t i = 1; i < have.size(); ++i)
    if (have[i].same_place(have[i - 1])) return Gap{"two triangles on the same side of an edge", have[i].low};
  for (const Side& wanted : curves)
    if (!std::binary_search(have.begin(), have.end(), wanted))
      return Gap{"an edge of the drawing without the triangle it borders on", wanted.low};
  const auto lower = [](const Side& a, const Side& b) {
    return std::array{a.low, a.high} < std::array{b.low, b.high};
  };
  for (const Side& side : have) {
    if (std::binary_search(curves.begin(), curves.end(), side, lower)) {
      // on a curve, a triangle of a face that does not border there has no partner among the wanted sides
      if (!std::binary_search(curves.begin(), curves.end(), side))
        return Gap{"a triangle on the wrong side of an edge of the drawing", side.low};
      continue;
    }
    if (!std::binary_search(have.begin(), have.end(), Side{side.low, side.high, !side.downward, side.face}))
      return Gap{"an inner edge with a triangle on one side only", side.low};
  }
  return {};
}

}  // namespace coilpull::detail
