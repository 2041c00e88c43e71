// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include <Eigen/Core>
#include <vector>

#include "solver/fem/space.hpp"

namespace coilpull::detail {

/// All space beyond the half circle of radius R, exactly: there
///     A_phi = A0 + sum_n a_n (R/rho)^(n+1) P_n^1(cos theta),    a_n = (2n+1) / (2n(n+1)) q_n . x,
/// whose energy is 1/2 x'Kx for the reaction field, with
///     K = sum_n (nu0 n / R) 2 pi R^2 (2n+1) / (2n(n+1)) q_n q_n',
///     q_n,i = int phi_i P_n^1(cos theta) sin(theta) dtheta,    phi_i = (r/q) N_i,
/// P_n^1 with the sign P_1^1 = sin(theta). A uniform background, A0 = B0 r / 2, adds the load
/// K x0 + int phi_i (B0/mu0) sin(theta) dS = 3 pi R^2 (B0/mu0) q_1.
struct OuterBoundary {
  std::vector<int> dofs;             ///< unknowns on the half circle, rising
  Eigen::MatrixXd stiffness;         ///< K on those
  Eigen::VectorXd per_background_T;  ///< load of a background of 1 T
};

/// @param terms  number of harmonics, see terms_for()
OuterBoundary outer_boundary(const Space& space, int terms);

/// Enough harmonics for a device of the given radius in a half circle of ratio times that radius: the n-th
/// has decayed by ratio^-2n on its way out and back; ceil(ln(1e7) / (2 ln ratio)), at least 8.
int terms_for(double ratio);

}  // namespace coilpull::detail
