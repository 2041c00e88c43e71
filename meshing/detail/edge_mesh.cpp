// SPDX-License-Identifier: GPL-3.0-or-later
#include "meshing/detail/edge_mesh.hpp"

#include <algorithm>
#include <cmath>
#include <cstdint>

#include "meshing/detail/clear_chords.hpp"
#include "meshing/detail/edge_geometry.hpp"
#include "meshing/detail/plane.hpp"
#include "meshing/mesh_section.hpp"

namespace coilpull::detail {
namespace {

constexpr double most_turn = pi / 6;  // of an arc within one edge
// Steeper grading leaves flat triangles: with 0.7 in one of a hundred random devices, with 0.9 in two of
// three.
constexpr double steepest_growth = 0.6;
constexpr double most_segments = 2e6;  // a mesh beyond any memory

/// A number in [-1, 1] that depends on all bits of its arguments: the mixing of splitmix64 (Steele, Lea and
/// Flood, OOPSLA 2014), constants from memory.
double scatter(std::uint64_t seed, std::uint64_t which) {
  std::uint64_t x = seed * 0x9E3779B97F4A7C15u + which;
  for (int round = 0; round < 2; ++round) {
    x = (x ^ (x >> 30)) * 0xBF58476D1CE4E5B9u;
    x = (x ^ (x >> 27)) * 0x94D049BB133111EBu;
    x ^= x >> 31;
  }
  return 2 * static_cast<double>(x >> 11) / 9007199254740992.0 - 1;  // 2^53
}

/// t along an edge against the number of wanted lengths from its start, int ds / size.
struct Stations {
  std::vector<double> t = {0};
  std::vector<double> count = {0};

  double t_where(double wanted) const {
    const auto after = std::upper_bound(count.begin(), count.end(), wanted);
    if (after == count.end()) return 1;
    const auto i = after - count.begin();
    return t[i - 1] + (t[i] - t[i - 1]) * (wanted - count[i - 1]) / (count[i] - count[i - 1]);
  }
};

/// Wished edge length at a point of a curve.
struct SizeOnCurve {
  const CutWishes& wishes;
  std::size_t curve;

  double operator()(Point at) const {
    double size = size_at(wishes.sizes, at);
    if (wishes.across.empty()) return size;
    for (const Edge& other : wishes.across[curve])
      size = std::min(size, wishes.most_per_gap * nearest(other, at).distance);
    return size;
  }
};

Stations stations_along(const Edge& edge, const SizeOnCurve& size) {
  const double all = length(edge);
  Stations s;
  double here = size(edge.from);
  while (s.t.back() < 1) {
    // a tenth of the wanted length; shorter where the field falls steeply ahead
    double step = std::min(0.1 * here / all, 1 - s.t.back());
    double next = size(point_at(edge, s.t.back() + step));
    while (next < 0.7 * here && step * all > 0.1 * next) {
      step /= 2;
      next = size(point_at(edge, s.t.back() + step));
    }
    const double t = s.t.back() + step;
    s.t.push_back(t > 1 - 1e-12 ? 1 : t);
    s.count.push_back(s.count.back() + step * all * 0.5 * (1 / here + 1 / next));
    here = next;
    if (s.count.back() > most_segments)
      throw MeshingFailed("the sizes asked for give more than 2 million edges");
  }
  return s;
}

std::vector<double> cuts(const Edge& edge, const CutWishes& wishes, std::size_t curve) {
  const Stations stations = stations_along(edge, {wishes, curve});
  const double total = stations.count.back();
  const double turns = std::abs(sweep(edge)) / most_turn;
  const int n =
      std::max({1, static_cast<int>(std::ceil(total - 1e-6)), static_cast<int>(std::ceil(turns - 1e-6))});
  std::vector<double> t;
  for (int k = 1; k < n; ++k) {
    const std::uint64_t which = ((curve + 1) << 32) + static_cast<std::uint64_t>(k);
    const double move = wishes.seed == 1 ? 0 : 0.12 * scatter(wishes.seed, which);
    t.push_back(stations.t_where(total * (k + move) / n));
  }
  return t;
}

}  // namespace

SizeField varied(const SizeField& sizes, const Variation& variation) {
  const double factor = variation.scale * (variation.seed == 1 ? 1 : 1 + 0.03 * scatter(variation.seed, 0));
  SizeField result = sizes;
  result.largest *= factor;
  for (SizeSource& source : result.sources) {
    source.size *= factor;
    source.growth = std::min(source.growth * factor, steepest_growth);
  }
  // those that ask for least first: whoever evaluates the field may stop at the first that cannot lower it
  std::stable_sort(result.sources.begin(), result.sources.end(),
                   [](const SizeSource& a, const SizeSource& b) { return a.size < b.size; });
  return result;
}

EdgeMesh mesh_edges(const PlanarMap& map, const CutWishes& wishes) {
  std::vector<std::vector<double>> stops;
  for (std::size_t c = 0; c < map.curves.size(); ++c) stops.push_back(cuts(map.curves[c].edge, wishes, c));
  clear_chords(map, stops);

  EdgeMesh mesh;
  mesh.points = map.vertices;
  for (int c = 0; c < static_cast<int>(map.curves.size()); ++c) {
    const Curve& curve = map.curves[c];
    mesh.of_curve.emplace_back();
    int last = curve.from;
    const auto go_to = [&](int node) {
      mesh.of_curve.back().push_back(static_cast<int>(mesh.segments.size()));
      mesh.segments.push_back({last, node, c});
      last = node;
    };
    for (const double t : stops[c]) {
      mesh.points.push_back(point_at(curve.edge, t));
      go_to(static_cast<int>(mesh.points.size()) - 1);
    }
    go_to(curve.to);
  }
  return mesh;
}

}  // namespace coilpull::detail
