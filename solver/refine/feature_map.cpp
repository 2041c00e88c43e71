// SPDX-License-Identifier: GPL-3.0-or-later
#include "solver/refine/feature_map.hpp"

#include <algorithm>
#include <cmath>
#include <limits>

#include "solver/device/size_wishes.hpp"

namespace coilpull {
namespace {

constexpr double reach = 2;  // a corner answers for what lies within this many of its own edge lengths

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

  /// The corner's number, or the nearest edge's after all corners.
  Eigen::Index feature_at(Point at) const {
    const Eigen::Index corner = corner_at(at);
    return corner >= 0 ? corner : corners() + nearest_edge(at);
  }

private:
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

  std::vector<Corner> corners_;
  std::vector<Edge> edges_;
  double fineness_;
};

}  // namespace

void widen(FeatureErrors& all, const FeatureErrors& more) {
  if (all.edge_N.size() == 0) {
    all = more;
    return;
  }
  if (more.edge_N.size() == 0) return;
  all.corner_N = all.corner_N.cwiseMax(more.corner_N);
  all.edge_N = all.edge_N.cwiseMax(more.edge_N);
  all.edge_rough_N = all.edge_rough_N.cwiseMax(more.edge_rough_N);
  const auto alike = [](const SpotError& a, const SpotError& b) { return a.at == b.at; };
  if (std::equal(all.spots.begin(), all.spots.end(), more.spots.begin(), more.spots.end(), alike))
    for (std::size_t i = 0; i < all.spots.size(); ++i)
      all.spots[i].error_N = std::max(all.spots[i].error_N, more.spots[i].error_N);
  else
    all.spots.clear();
  all.edge_triangles = all.edge_triangles.cwiseMax(more.edge_triangles);
}

FeatureErrors weighed(FeatureErrors errors, double where_rough, double where_smooth) {
  errors.corner_N *= where_rough;
  errors.edge_N *= where_smooth;
  errors.edge_rough_N *= where_rough;
  for (SpotError& spot : errors.spots) spot.error_N *= where_rough;
  return errors;
}

void drop_small_spots(FeatureErrors& errors) {
  double largest = 0;
  for (const SpotError& spot : errors.spots) largest = std::max(largest, spot.error_N);
  const auto small = [&](const SpotError& spot) { return spot.error_N < 1e-4 * largest; };
  errors.spots.erase(std::remove_if(errors.spots.begin(), errors.spots.end(), small), errors.spots.end());
}

FeatureMap::FeatureMap(const Device& device, const Section& section, const Resolution& resolution,
                       const Mesh& mesh, const std::vector<SharePlace>& places_of_shares) {
  const Features features(device, section.parts, resolution);
  corners_ = features.corners();
  edges_ = features.edges();
  for (const SharePlace& place : places_of_shares) {
    const Eigen::Index feature = features.feature_at(place.at);
    feature_.push_back(feature < corners_ || place.saturable ? feature : feature + edges_);
  }
  places_ = places_of_shares;
  edge_triangles_ = Eigen::VectorXd::Zero(edges_);
  for (Eigen::Index t = 0; t < mesh.triangles.cols(); ++t) {
    Eigen::Vector2d middle = Eigen::Vector2d::Zero();
    for (const int node : mesh.triangles.col(t)) middle += mesh.nodes.col(node) / 3;
    const Eigen::Index feature = features.feature_at({middle.x(), middle.y()});
    if (feature >= corners_) edge_triangles_[feature - corners_] += 1;
  }
}

Eigen::VectorXd FeatureMap::gathered(const Eigen::VectorXd& shares_N) const {
  Eigen::VectorXd all = Eigen::VectorXd::Zero(corners_ + 2 * edges_);
  for (std::size_t i = 0; i < feature_.size(); ++i)
    all[feature_[i]] += shares_N[static_cast<Eigen::Index>(i)];
  return all;
}

FeatureErrors FeatureMap::errors(const Eigen::VectorXd& shares_N) const {
  const Eigen::VectorXd all = gathered(shares_N.cwiseAbs());
  FeatureErrors errors{
      all.head(corners_), all.tail(edges_), all.segment(corners_, edges_), edge_triangles_, {}};
  for (std::size_t i = 0; i < feature_.size(); ++i)
    if (feature_[i] >= corners_ && feature_[i] < corners_ + edges_)
      errors.spots.push_back(
          {places_[i].at, places_[i].size, std::abs(shares_N[static_cast<Eigen::Index>(i)])});
  return errors;
}

ForceChange FeatureMap::change(const Eigen::VectorXd& shares_N) const {
  const Eigen::VectorXd all = gathered(shares_N);
  const auto rough = all.head(corners_ + edges_), smooth = all.tail(edges_);
  return {rough.sum(), smooth.sum(), rough.norm(), smooth.norm()};
}

}  // namespace coilpull
