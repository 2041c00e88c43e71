// SPDX-License-Identifier: GPL-3.0-or-later
#include "meshing/detail/cut_edges.hpp"

#include <algorithm>
#include <cmath>
#include <utility>

#include "meshing/detail/edge_geometry.hpp"
#include "meshing/detail/plane.hpp"

namespace coilpull::detail {
namespace {

/// How fast triangles grow away from an edge that is shorter than asked for (common practice, no source).
constexpr double growth_from_short_edges = 0.5;

/// A triangle on an edge of length l with its apex above the middle, across a gap g << l, has inradius g/2
/// and circumradius l^2 / 8g, quality 8 (g/l)^2. Factor 3 instead of 8: neither gap nor apex is ideal.
double edges_over_gap(double quality) {
  return quality > 0 ? std::max(1.0, std::sqrt(3 / quality)) : HUGE_VAL;
}

double longest_edge(const EdgeMesh& mesh, std::size_t curve) {
  double longest = 0;
  for (const int s : mesh.of_curve[curve])
    longest = std::max(longest, norm(mesh.points[mesh.segments[s].b] - mesh.points[mesh.segments[s].a]));
  return longest;
}

/// Per curve, the curves it does not meet that are too near for its longest edge.
std::vector<std::vector<Edge>> narrow_gaps(const PlanarMap& map, const EdgeMesh& mesh, double most_per_gap) {
  const std::size_t n = map.curves.size();
  std::vector<std::vector<Edge>> across(n);
  std::vector<Box> boxes;
  for (const Curve& curve : map.curves) boxes.push_back(box_of(curve.edge));
  for (std::size_t c = 0; c < n; ++c) {
    const double near = longest_edge(mesh, c) / most_per_gap;
    for (std::size_t other = 0; other < n; ++other)
      if (other != c && !boxes_apart(boxes[c], boxes[other], near) &&
          !map.curves[c].meets(map.curves[other]) &&
          nearest(map.curves[c].edge, map.curves[other].edge).distance < near)
        across[c].push_back(map.curves[other].edge);
  }
  return across;
}

/// The edges much shorter than the field asks for, as sources: along a straight curve those of about one
/// length together as one.
std::vector<SizeSource> short_edges(const PlanarMap& map, const EdgeMesh& mesh, const SizeField& sizes) {
  std::vector<SizeSource> sources;
  for (std::size_t c = 0; c < map.curves.size(); ++c) {
    bool joins = false;
    double shortest = 0, longest = 0;  // of those joined
    for (const int s : mesh.of_curve[c]) {
      const Point a = mesh.points[mesh.segments[s].a], b = mesh.points[mesh.segments[s].b];
      const double length = norm(b - a);
      if (length >= 0.5 * size_at(sizes, 0.5 * (a + b))) {
        joins = false;
        continue;
      }
      shortest = joins ? std::min(shortest, length) : length;
      longest = joins ? std::max(longest, length) : length;
      if (joins && longest < 1.25 * shortest) {
        sources.back().to = b;
        sources.back().size = shortest;
        continue;
      }
      shortest = longest = length;
      sources.push_back({a, b, length, growth_from_short_edges});
      joins = !map.curves[c].edge.centre;
    }
  }
  return sources;
}

}  // namespace

CutDrawing cut_edges(const PlanarMap& map, const SizeField& sizes, const MesherOptions& options) {
  CutWishes wishes = {sizes, options.seed};
  EdgeMesh edges = mesh_edges(map, wishes);
  wishes.most_per_gap = edges_over_gap(options.quality_above);
  wishes.across = narrow_gaps(map, edges, wishes.most_per_gap);
  const bool has_gaps =
      std::any_of(wishes.across.begin(), wishes.across.end(), [](const auto& v) { return !v.empty(); });
  if (has_gaps) edges = mesh_edges(map, wishes);
  const std::vector<SizeSource> finer = short_edges(map, edges, sizes);
  if (finer.empty()) return {std::move(edges), sizes};
  wishes.sizes.sources.insert(wishes.sizes.sources.end(), finer.begin(), finer.end());
  wishes.sizes = varied(wishes.sizes, {});  // sorts
  edges = mesh_edges(map, wishes);
  return {std::move(edges), std::move(wishes.sizes)};
}

}  // namespace coilpull::detail
