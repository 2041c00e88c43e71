// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include <Eigen/Core>
#include <vector>

#include "meshing/point.hpp"
#include "solver/fem/space.hpp"

namespace coilpull {

/// What each unknown of the enriched field adds to the change of the force from order p to p + 1.
/// With g the imbalance of the field of order p seen in the enriched space, c the gradient of the force half
/// way between both fields (the force is quadratic: exact) and mu = K^-1 c the adjoint,
///     F_(p+1) - F_p = c . (x_(p+1) - x_p) ~ - mu . g = sum of the shares.
/// g vanishes on the unknowns of order p: what is left belongs to single edges and triangles, and says where
/// the mesh is too coarse for the force. Compare Becker and Rannacher, Acta Numerica 10 (2001) 1. As an
/// estimate of the error it fails for saturated steel; it only decides where to refine.
struct ForceShares {
  std::vector<Point>
      at;  ///< node, middle of the edge, or centroid of the triangle that the unknown belongs to
  Eigen::VectorXd share_N;  ///< same length
};

/// Where each unknown of a space lives.
std::vector<Point> places_of_unknowns(const detail::Space& space);

}  // namespace coilpull
