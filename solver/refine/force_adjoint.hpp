// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include <Eigen/Core>
#include <vector>

#include "solver/fem/problem.hpp"
#include "solver/fem/space.hpp"
#include "solver/measure/force.hpp"

namespace coilpull::detail {

/// A solved field x with mu = K^-1 dF/dx. The residual g(x, p) = dE/dx vanishes whatever the parameter p is,
/// so that
///     dF/dp = (dF/dp) at carried x  -  mu . (dg/dp) at carried x.
/// With B_m the field of the coefficients mu, over each triangle mu.g = int [ H(B) . B_m - J A_m ] dV.
struct ForceAdjoint {
  const Space* space;
  const Problem* problem;
  const ForceWeight* weight;
  Eigen::VectorXd x, mu, currents_A;
};

/// Slopes of the force along relative changes of what fills one region [N per unit of the change]; 0 where
/// the region has no such thing.
struct StrengthSlopes {
  double remanence = 0;
  double permeability = 0;  ///< of a straight law, or of a magnet's recoil line
  double polarization = 0;  ///< of a saturable law: J(H) at every H, its saturation with it
  double ampere_turns = 0;
};

/// One a region. Nothing of a strength stands in the force itself, which is taken in air: dF/dp = -mu.dg/dp.
/// For B = mu0 H + k J(H) at carried B: dH/dk = -J dH/dB.
std::vector<StrengthSlopes> strength_slopes(const ForceAdjoint& adjoint);

/// Slope of the force when every point moves with a velocity V, given in the basis of the geometry
/// [N per unit of time]: exact for the mesh, with carried weight g and each winding keeping its turns. With D
/// the matrix of slopes of V, at carried coefficients (dv/dr, dv/dz)' = -D^T (dv/dr, dv/dz) and
/// dV' = (V_r/r + div V) dV.  V must vanish on the half circle.
double slope_along(const ForceAdjoint& adjoint, const Eigen::Matrix2Xd& velocity);

}  // namespace coilpull::detail
