// SPDX-License-Identifier: GPL-3.0-or-later
#include "solver/refine/feature_errors.hpp"

#include <algorithm>
#include <cmath>
#include <limits>

#include "solver/device/size_wishes.hpp"

namespace coilpull {
namespace {

constexpr double corner_rate = 1.5, edge_rate = 6;
constexpr double per_ring =
    20;                      // triangles around a corner for each factor e in size; half of them on the axis
constexpr double reach = 2;  // a corner answers for what lies within this many of its own edge lengths
constexpr double least_corner = 1e-4, largest_corner = 0.7;  // of the edge length beside the corner
constexpr double coarsest_edge = 2, finest_edge = 0.25;      // factor on the plain wish along an edge
constexpr double most_rise = 20;  // of a corner's error by a larger size: farther off the rate says nothing

bool on_axis(const Edge& edge) { return !edge.centre && edge.from.r == 0 && edge.to.r == 0; }

/// Finds the feature that a point belongs to.
class Features {
public:
  Features(const Device& device, const std::vector<Region>& parts, const Resolution& resolution)
      : corners_(corners_of(device, parts, resolution)), fineness_(resolution.fineness) {
    for (const Region& part : parts)
      edges_.insert(edges_.end(), part.outline.edges.begin(), part.outline.edges.end());
  }

  Eigen::Index corners() const { return static_cast<Eigen::Index>(corners_.size()); }
  Eigen::Index edges() const { return static_cast<Eigen::Index>(edges_.size()); }

  /// Number of the corner, or -1.
  Eigen::Index corner_at(Point at) const {
    Eigen::Index found = -1;
    double least = reach;
    for (std::size_t i = 0; i < corners_.size(); ++i) {
      const Corner& corner = corners_[i];
      const double away = std::hypot(at.r - corner.at.r, at.z - corner.at.z) * fineness_ / corner.size;
      if (away < least) least = away, found = static_cast<Eigen::Index>(i);
    }
    return found;
  }

  Eigen::Index nearest_edge(Point at) const {
    Eigen::Index found = 0;
    double least = std::numeric_limits<double>::infinity();
    for (std::size_t i = 0; i < edges_.size(); ++i) {
      if (on_axis(edges_[i])) continue;
      const double away = distance(edges_[i], at);
      if (away < least) least = away, found = static_cast<Eigen::Index>(i);
    }
    return found;
  }

private:
  std::vector<Corner> corners_;
  std::vector<Edge> edges_;
  double fineness_;
};

}  // namespace

FeatureErrors feature_errors(const Device& device, const Section& section, const Resolution& resolution,
                             const Mesh& mesh, const ForceShares& shares) {
  const Features features(device, section.parts, resolution);
  FeatureErrors errors{Eigen::VectorXd::Zero(features.corners()), Eigen::VectorXd::Zero(features.edges()),
                       Eigen::VectorXd::Zero(features.edges())};
  Eigen::VectorXd at_corner = Eigen::VectorXd::Zero(features.corners()),
                  at_edge = Eigen::VectorXd::Zero(features.edges());
  for (std::size_t i = 0; i < shares.at.size(); ++i) {
    const Eigen::Index corner = features.corner_at(shares.at[i]);
    const Eigen::Index edge = corner >= 0 ? -1 : features.nearest_edge(shares.at[i]);
    const double share = shares.share_N[static_cast<Eigen::Index>(i)];
    (corner >= 0 ? errors.corner_N[corner] : errors.edge_N[edge]) += std::abs(share);
    (corner >= 0 ? at_corner[corner] : at_edge[edge]) += share;
  }
  errors.changes_N = std::hypot(at_corner.norm(), at_edge.norm());
  for (Eigen::Index t = 0; t < mesh.triangles.cols(); ++t) {
    Eigen::Vector2d middle = Eigen::Vector2d::Zero();
    for (const int node : mesh.triangles.col(t)) middle += mesh.nodes.col(node) / 3;
    const Point at{middle.x(), middle.y()};
    if (features.corner_at(at) < 0) errors.edge_triangles[features.nearest_edge(at)] += 1;
  }
  return errors;
}

void widen(FeatureErrors& all, const FeatureErrors& more) {
  if (all.edge_N.size() == 0) {
    all = more;
    return;
  }
  if (more.edge_N.size() == 0) return;
  all.corner_N = all.corner_N.cwiseMax(more.corner_N);
  all.edge_N = all.edge_N.cwiseMax(more.edge_N);
  all.edge_triangles = all.edge_triangles.cwiseMax(more.edge_triangles);
  all.changes_N = std::max(all.changes_N, more.changes_N);
}

Resolution spread_over_features(const Device& device, const std::vector<Region>& parts,
                                const Resolution& measured_at, const FeatureErrors& errors, double ratio) {
  Resolution plain = measured_at;
  plain.features = {};
  const std::vector<Corner> corners = corners_of(device, parts, measured_at);
  FeatureSizes now = measured_at.features;  // factors so far
  if (now.edge.empty())
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
                   largest = std::min(before * std::pow(most_rise, 1 / corner_rate),
                                      largest_corner / measured_at.at_corner);
      size = std::clamp(before * wanted, least, std::max(least, largest));
      left += error * std::pow(size / before, corner_rate);
    }
    Eigen::Index next = 0;
    for (std::size_t part = 0; part < parts.size(); ++part)
      for (double& size : sizes.edge[part]) {
        const double error = errors.edge_N[next], triangles = std::max(1.0, errors.edge_triangles[next]);
        const double before = size;
        const double wanted = std::pow(multiplier * triangles * 2 / (edge_rate * error), 1 / (edge_rate + 2));
        size = std::clamp(before * wanted, finest_edge, coarsest_edge);
        left += error * std::pow(size / before, edge_rate);
        ++next;
      }
    return sizes;
  };

  const double total = errors.corner_N.sum() + errors.edge_N.sum(), budget = ratio * total;
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
