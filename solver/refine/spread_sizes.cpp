// SPDX-License-Identifier: GPL-3.0-or-later
#include "solver/refine/spread_sizes.hpp"

#include <algorithm>
#include <cmath>

#include "solver/device/size_wishes.hpp"
#include "solver/refine/corner_sizes.hpp"

namespace coilpull {
namespace {

constexpr double edge_rate = 6, rough_rate = 3;
constexpr double per_ring =
    20;  // triangles around a corner for each factor e in size; half of them on the axis
constexpr double largest_corner = 0.7;                   // of the edge length beside the corner
constexpr double coarsest_edge = 2, finest_edge = 0.25;  // factor on the plain wish along an edge
constexpr double most_rise = 20;  // of a corner's error by a larger size: farther off the rate says nothing
constexpr double finest_spot = 0.1;   // factor on the triangles that are there: trusted no further at once
constexpr double worth_a_spot = 0.9;  // spots that ask for less than a tenth off are left out

/// Factor on a size at which one more triangle gains what the multiplier says: the error falls like
/// size^rate, the triangles rise like size^-2.
double factor_for(double multiplier, double triangles, double rate, double error_N) {
  return std::pow(multiplier * triangles * 2 / (rate * error_N), 1 / (rate + 2));
}

double spot_factor(double multiplier, const SpotError& spot) {
  return std::clamp(factor_for(multiplier, 1, rough_rate, spot.error_N), finest_spot, 1.0);
}

class Spread {
public:
  Spread(const Device& device, const std::vector<Region>& parts, const Resolution& measured_at,
         const FeatureErrors& errors)
      : corners_(corners_of(device, parts, measured_at)),
        measured_at_(measured_at),
        errors_(errors),
        now_(measured_at.features),
        sized_before_(!now_.edge.empty()) {
    if (sized_before_) return;
    for (const Region& part : parts) {
      now_.corner.emplace_back(part.outline.edges.size(), 1.0);
      now_.edge.emplace_back(part.outline.edges.size(), 1.0);
    }
  }

  double total_N() const {
    return errors_.corner_N.sum() + errors_.edge_N.sum() + errors_.edge_rough_N.sum();
  }

  /// @param left_N  set to the sum of the errors at these sizes
  FeatureSizes sizes(double multiplier, double& left_N) const {
    FeatureSizes sizes = now_;
    left_N = 0;
    for (std::size_t i = 0; i < corners_.size(); ++i) {
      double& size = sizes.corner[corners_[i].part][corners_[i].edge];
      left_N += corner(multiplier, i, size);
    }
    Eigen::Index next = 0;
    for (std::vector<double>& part : sizes.edge)
      for (double& size : part) left_N += edge(multiplier, next++, size);
    for (const SpotError& spot : errors_.spots)
      left_N += spot.error_N * std::pow(spot_factor(multiplier, spot), rough_rate);
    return sizes;
  }

  /// Those there were, and the new ones from the smallest on that none before makes needless.
  std::vector<FineSpot> spots(double multiplier) const {
    std::vector<FineSpot> wanted, all = measured_at_.spots;
    for (const SpotError& spot : errors_.spots) {
      const double factor = spot_factor(multiplier, spot);
      if (factor < worth_a_spot) wanted.push_back({spot.at, factor * spot.size * measured_at_.fineness});
    }
    std::sort(wanted.begin(), wanted.end(),
              [](const FineSpot& a, const FineSpot& b) { return a.size < b.size; });
    for (const FineSpot& spot : wanted) {
      const bool known = std::any_of(all.begin(), all.end(), [&](const FineSpot& other) {
        const double away = std::hypot(spot.at.r - other.at.r, spot.at.z - other.at.z);
        return other.size + measured_at_.growth * measured_at_.fineness * away < spot.size / worth_a_spot;
      });
      if (!known) all.push_back(spot);
    }
    return all;
  }

private:
  /// Sets the factor on the size; gives the error left [N].
  double corner(double multiplier, std::size_t i, double& size) const {
    const double error = errors_.corner_N[static_cast<Eigen::Index>(i)];
    const double rings = corners_[i].at.r == 0 ? 0.5 * per_ring : per_ring;
    const double before = size;
    const double wanted = std::pow(multiplier * rings / (corner_rate * error), 1 / corner_rate);
    const double least = least_corner / measured_at_.at_corner,
                 largest = std::min(before * (sized_before_ ? 1 : std::pow(most_rise, 1 / corner_rate)),
                                    largest_corner / measured_at_.at_corner);
    size = std::clamp(before * wanted, least, std::max(least, largest));
    return error * std::pow(size / before, corner_rate);
  }

  /// The same. With spots, what is rough belongs to these: it makes no edge finer, but keeps one from
  /// becoming coarser.
  double edge(double multiplier, Eigen::Index i, double& size) const {
    const double smooth = errors_.edge_N[i], rough = errors_.edge_rough_N[i], both = smooth + rough;
    const double triangles = std::max(1.0, errors_.edge_triangles[i]);
    const double rate = both > 0 ? (edge_rate * smooth + rough_rate * rough) / both : edge_rate;
    const double before = size;
    const bool by_spots = !errors_.spots.empty();
    double wanted = factor_for(multiplier, triangles, rate, both);
    if (by_spots && wanted < 1) wanted = std::min(1.0, factor_for(multiplier, triangles, edge_rate, smooth));
    size = std::clamp(before * wanted, finest_edge, coarsest_edge);
    const double rough_left = std::pow(size / before, rough_rate);
    return smooth * std::pow(size / before, edge_rate) +
           rough * (by_spots ? std::max(0.0, rough_left - 1) : rough_left);
  }

  std::vector<Corner> corners_;
  const Resolution& measured_at_;
  const FeatureErrors& errors_;
  FeatureSizes now_;  ///< factors so far
  bool sized_before_;
};

}  // namespace

Resolution spread_over_features(const Device& device, const std::vector<Region>& parts,
                                const Resolution& measured_at, const FeatureErrors& errors, double ratio) {
  const Spread spread(device, parts, measured_at, errors);
  const double total = spread.total_N();
  if (!(total > 0)) return measured_at;  // no field, or none that pulls: nothing to spread
  double low = std::log(1e-12 * total / per_ring), high = std::log(1e6 * total / per_ring), left = 0;
  for (int i = 0; i < 60; ++i) {
    const double middle = 0.5 * (low + high);
    spread.sizes(std::exp(middle), left);
    (left > ratio * total ? high : low) = middle;
  }
  Resolution spread_out = measured_at;
  spread_out.features = spread.sizes(std::exp(low), left);
  spread_out.spots = spread.spots(std::exp(low));
  return spread_out;
}

}  // namespace coilpull
