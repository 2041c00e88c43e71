// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include <vector>

#include "meshing/point.hpp"
#include "solver/fem/problem.hpp"
#include "solver/fem/space.hpp"

namespace coilpull {

/// What each unknown that enrichment adds has to do with the change of the force from order p to p + 1.
/// With g the imbalance of the field of order p seen in the enriched space, c the gradient of the force half
/// way between both fields (the force is quadratic: exact) and mu = K^-1 c the adjoint,
///     F_(p+1) - F_p = c . (x_(p+1) - x_p) ~ - mu . g = sum of the shares.
/// g vanishes on the unknowns of order p: what is left belongs to single edges and triangles, and says where
/// the mesh is too coarse for the force. Compare Becker and Rannacher, Acta Numerica 10 (2001) 1. As an
/// estimate of the error it fails for saturated steel; it only tells the parts of a difference that is known.
/// See PairSolver::shares.

/// Where an unknown lives.
struct SharePlace {
  Point at;        ///< the node, the middle of the edge, or the centroid of the triangle
  double size;     ///< mean edge of the triangle it belongs to, of two the larger [m]
  bool saturable;  ///< in or on a triangle of saturable steel
};

/// Of the unknowns from `first` on.
std::vector<SharePlace> places_of_unknowns(const detail::Space& space, const Problem& problem, int first);

}  // namespace coilpull
