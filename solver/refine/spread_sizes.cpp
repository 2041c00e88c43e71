// SPDX-License-Identifier: GPL-3.0-or-later
#include "solver/refine/spread_sizes.hpp"

#include <algorithm>
#include <cmath>

#include "solver/device/size_wishes.hpp"

namespace coilpull {
namespace {

constexpr double corner_rate = 1.5, edge_rate = 6, rough_rate = 3;
constexpr double per_ring =
    20;  // triangles around a corner for each factor e in size; half of them on the axis
constexpr double least_corner = 1e-4, largest_corner = 0.7;  // of the edge length beside the corner
constexpr double coarsest_edge = 2, finest_edge = 0.25;      // factor on the plain wish along an edge
constexpr double most_rise = 20;  // of a corner's error by a larger size: farther off the rate says nothing

}  // namespace

Resolution spread_over_features(const Device& device, const std::vector<Region>& parts,
                                const Resolution& measured_at, const FeatureErrors& errors, double ratio) {
  Resolution plain = measured_at;
  plain.features = {};
  const std::vector<Corner> corners = corners_of(device, parts, measured_at);
  FeatureSizes now = measured_at.features;  // factors so far
  const bool sized_before = !now.edge.empty();
  if (!sized_before)
    for (const Region& part : parts) {
      now.corner.emplace_back(part.outline.edges.size(), 1.0);
      now.edge.emplace_back(part.outline.edges.size(), 1.0);
    }

  const auto sizes_at = [&](double multiplier, double& left) {
    FeatureSizes sizes = now;
    left = 0;
    for (std::size_t i = 0; i < corners.size(); ++i) {
      const Corner& corner = corners[i];
      const double error = errors.corner_N[static_cast<Eigen::Index>(i)];
      const double rings = corner.at.r == 0 ? 0.5 * per_ring : per_ring;
      double& size = sizes.corner[corner.part][corner.edge];
      const double before = size,
                   wanted = std::pow(multiplier * rings / (corner_rate * error), 1 / corner_rate);
      const double least = least_corner / measured_at.at_corner,
                   largest = std::min(before * (sized_before ? 1 : std::pow(most_rise, 1 / corner_rate)),
                                      largest_corner / measured_at.at_corner);
      size = std::clamp(before * wanted, least, std::max(least, largest));
      left += error * std::pow(size / before, corner_rate);
    }
    Eigen::Index next = 0;
    for (std::size_t part = 0; part < parts.size(); ++part)
      for (double& size : sizes.edge[part]) {
        const double smooth = errors.edge_N[next], rough = errors.edge_rough_N[next], error = smooth + rough;
        const double rate = error > 0 ? (edge_rate * smooth + rough_rate * rough) / error : edge_rate;
        const double triangles = std::max(1.0, errors.edge_triangles[next]);
        const double before = size;
        const double wanted = std::pow(multiplier * triangles * 2 / (rate * error), 1 / (rate + 2));
        size = std::clamp(before * wanted, finest_edge, coarsest_edge);
        left += error * std::pow(size / before, rate);
        ++next;
      }
    return sizes;
  };

  const double total = errors.corner_N.sum() + errors.edge_N.sum() + errors.edge_rough_N.sum(),
               budget = ratio * total;
  if (!(total > 0)) return measured_at;  // no field, or none that pulls: nothing to spread
  double low = std::log(1e-12 * total / per_ring), high = std::log(1e6 * total / per_ring), left = 0;
  for (int i = 0; i < 60; ++i) {
    const double middle = 0.5 * (low + high);
    sizes_at(std::exp(middle), left);
    (left > budget ? high : low) = middle;
  }
  plain.features = sizes_at(std::exp(low), left);
  return plain;
}

}  // namespace coilpull
