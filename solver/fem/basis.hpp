// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include <Eigen/Core>

#include "solver/fem/quadrature.hpp"

namespace coilpull::detail {

/// Highest order of the basis: a solution of order 5 and its enriched twin of order 6.
inline constexpr int highest_order = 6;

/// Functions of one triangle at order p.
constexpr int basis_size(int order) { return (order + 1) * (order + 2) / 2; }

/// Hierarchical basis of the reference triangle (0,0), (1,0), (0,1), sorted by degree, so that the basis of
/// order p is the beginning of that of order p+1:
///     degree 1       l0, l1, l2                                    the three corners
///     degree d >= 2  la lb L_{d-2}(lb - la)                        edges (a,b) = (0,1), (1,2), (0,2)
///                    l0 l1 l2 L_i(l1 - l0) L_j(2 l2 - 1)           inside, i + j = d - 3, i rising
/// with barycentric l and Legendre polynomials L; after Szabo and Babuska, Finite Element Analysis, 1991,
/// ch. 6. An edge function of odd degree changes sign with the direction of the edge: corners of a triangle
/// are therefore numbered by rising node number, and both neighbours agree.
/// @param value  (basis_size)     @param slope  (2, basis_size): d/dxi, d/deta
void evaluate_basis(int order, double xi, double eta, Eigen::Ref<Eigen::VectorXd> value,
                    Eigen::Ref<Eigen::Matrix2Xd> slope);

/// The basis at every point of triangle_rule(n): row = point, column = function.
struct BasisTable {
  TriangleRule rule;
  Eigen::MatrixXd value;
  Eigen::MatrixXd d_xi;
  Eigen::MatrixXd d_eta;
};

/// Made at the first call, then shared by all threads. 1 <= order <= highest_order, 1 <= n <= 40.
const BasisTable& basis_table(int order, int n);

}  // namespace coilpull::detail
