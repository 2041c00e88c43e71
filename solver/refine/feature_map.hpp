// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include <Eigen/Core>
#include <vector>

#include "meshing/mesh.hpp"
#include "solver/device/section_at.hpp"
#include "solver/refine/force_shares.hpp"

namespace coilpull {

/// One share in saturable steel.
struct SpotError {
  Point at;
  double size;     ///< of the triangles there [m]
  double error_N;  ///< size of the share
};

/// The force's error laid at the door of single features of the drawing, and what each costs in triangles.
/// Features keep their numbers along the stroke, triangles do not.
struct FeatureErrors {
  Eigen::VectorXd corner_N;        ///< sums of the sizes of the shares, in the order of corners_of
  Eigen::VectorXd edge_N;          ///< the same for edges of all outlines, parts one after the other
  Eigen::VectorXd edge_rough_N;    ///< and of shares in saturable steel, which edge_N leaves out
  Eigen::VectorXd edge_triangles;  ///< triangles nearest to each edge, those at corners apart
  std::vector<SpotError>
      spots;  ///< what edge_rough_N is the sum of, share by share; empty for several meshes
};

/// Entry by entry the larger; either may be empty. Spots of different meshes are left out.
void widen(FeatureErrors& all, const FeatureErrors& more);

/// What the bars make of these errors: times one factor where the field is rough, another where it is smooth.
FeatureErrors weighed(FeatureErrors errors, double where_rough, double where_smooth);

/// Forgets spots a ten thousandth as large as the largest: most are.
void drop_small_spots(FeatureErrors& errors);

/// What enrichment changes of a force, told apart by where. The field is rough at corners of steel and
/// magnets (see corners_of) and inside saturable steel, where the bend of B-H goes through it; elsewhere it
/// is smooth.
struct ForceChange {
  double rough_N, smooth_N;              ///< sums of the shares with their signs
  double rough_apart_N, smooth_apart_N;  ///< what they come to when nothing cancels between two features:
                                         ///< roots of the sums of squares
};

/// Which feature every share of a force (see force_shares.hpp) belongs to, on one mesh: the corner whose
/// smallest triangles hold it, else the nearest edge of an outline.
class FeatureMap {
public:
  FeatureMap(const Device& device, const Section& section, const Resolution& resolution, const Mesh& mesh,
             const std::vector<SharePlace>& places_of_shares);

  /// @param shares_N  one for each place
  FeatureErrors errors(const Eigen::VectorXd& shares_N) const;
  ForceChange change(const Eigen::VectorXd& shares_N) const;

private:
  Eigen::VectorXd gathered(const Eigen::VectorXd& shares_N) const;

  std::vector<Eigen::Index> feature_;  ///< of each share: corners, edges seen from saturable steel, edges
  Eigen::Index corners_, edges_;
  Eigen::VectorXd edge_triangles_;
  std::vector<SharePlace> places_;
};

}  // namespace coilpull
