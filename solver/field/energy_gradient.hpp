// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include <Eigen/Core>

#include "solver/fem/problem.hpp"
#include "solver/fem/space.hpp"

namespace coilpull::detail {

/// dE/dx of the discrete energy at any coefficients x, one entry an unknown [A m]:
///     g_i = int [ H(B) . B_i - J A_i ] dV + (K x - background)_i,
/// K the outer boundary's. Zero at a solution; elsewhere the imbalance that a solver would still have to
/// remove.
/// @param x  coefficients of this space, or of a lower order on the same mesh (the rest is 0)
Eigen::VectorXd energy_gradient(const Space& space, const Problem& problem, int outer_terms,
                                const Eigen::VectorXd& currents_A, const Eigen::VectorXd& x);

}  // namespace coilpull::detail
