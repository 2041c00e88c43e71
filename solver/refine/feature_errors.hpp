// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include <Eigen/Core>
#include <vector>

#include "meshing/mesh.hpp"
#include "solver/device/section_at.hpp"
#include "solver/refine/force_shares.hpp"

namespace coilpull {

/// The force's error laid at the door of single features of the drawing, and what each costs in triangles.
/// Features keep their numbers along the stroke, triangles do not.
/// A feature's error is the sum of the sizes of its shares; its change is their sum with their signs.
struct FeatureErrors {
  Eigen::VectorXd corner_N;        ///< in the order of corners_of
  Eigen::VectorXd edge_N;          ///< edges of all outlines, parts one after the other
  Eigen::VectorXd edge_triangles;  ///< triangles nearest to each edge, those at corners apart
  double changes_N = 0;            ///< root of the sum of the squares of the changes of all features
};

/// Every share goes to the corner whose smallest triangles hold it, else to the nearest edge of an outline.
FeatureErrors feature_errors(const Device& device, const Section& section, const Resolution& resolution,
                             const Mesh& mesh, const ForceShares& shares);

/// Entry by entry the larger; either may be empty.
void widen(FeatureErrors& all, const FeatureErrors& more);

/// Sizes that change the sum of all errors by `ratio` (below 1: smaller) at the least number of triangles.
/// A corner's error falls like size^1.5 and every further ring of triangles around it costs the same; along
/// an edge the error falls like size^6 and the triangles rise like size^-2. At the optimum one more triangle
/// gains equally much everywhere (Lagrange's multiplier, found by bisection). Without errors the sizes stay.
/// @param parts  of any displacement: their corners and edges number the features
Resolution spread_over_features(const Device& device, const std::vector<Region>& parts,
                                const Resolution& measured_at, const FeatureErrors& errors, double ratio);

}  // namespace coilpull
