// SPDX-License-Identifier: GPL-3.0-or-later
#include "solver/sweep/mesh_plan.hpp"

#include <algorithm>

namespace coilpull {
namespace {

constexpr std::size_t carried_along = 4;  // displacements that share the triangles of one mesh

}  // namespace

std::vector<std::size_t> anchors_of(std::size_t count) {
  std::vector<std::size_t> anchors;
  const std::size_t parts = count >= 9 ? 4 : 2;
  for (std::size_t k = 0; k <= parts; ++k) anchors.push_back(k * (count - 1) / parts);
  anchors.erase(std::unique(anchors.begin(), anchors.end()), anchors.end());
  return anchors;
}

std::vector<MeshOrigin> origins_along(const std::vector<double>& displacements,
                                      const std::vector<std::size_t>& anchors,
                                      const std::shared_ptr<const Resolution>& resolution) {
  std::vector<std::size_t> meshed = anchors;
  for (std::size_t i = carried_along / 2; i < displacements.size(); i += carried_along) meshed.push_back(i);
  std::sort(meshed.begin(), meshed.end());
  std::vector<MeshOrigin> origins;
  for (std::size_t i = 0; i < displacements.size(); ++i) {
    const auto away = [i](std::size_t k) { return k > i ? k - i : i - k; };
    const std::size_t nearest = *std::min_element(
        meshed.begin(), meshed.end(), [&](std::size_t a, std::size_t b) { return away(a) < away(b); });
    origins.push_back({resolution, displacements[nearest]});
  }
  return origins;
}

}  // namespace coilpull
