// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include <Eigen/Core>
#include <vector>

#include "solver/fem/space.hpp"

namespace coilpull::detail {

/// The basis of one order at the points of one rule, laid out so that a whole batch of triangles is one
/// matrix product. Slots a: d/dxi, d/deta, value; pairs of slots in the order (xi,xi), (xi,eta), (xi,v),
/// (eta,eta), (eta,v), (v,v).
struct BatchTable {
  Eigen::MatrixXd functions;  ///< (3 points, size): row a * points + q, column = function
  /// (size (size+1)/2, 6 points): row = pair (i, j <= i) of functions, column by column of the lower
  /// triangle; column = pair of slots * points + q; entry f_ai f_bj + f_bi f_aj, halved when a = b. Empty for
  /// large rules.
  Eigen::MatrixXd products;
};

/// Made at the first call, then shared by all threads.
const BatchTable& batch_table(int order, int n);

/// Triangles of one region that share a quadrature rule. Per point of each triangle the factors by which
/// slots become fields:
///     B_r = r_xi v_xi + r_eta v_eta      B_z = z_xi v_xi + z_eta v_eta + z_v v      A_phi = a v
struct ElementBatch {
  int region, order, n;  ///< n of triangle_rule(n)
  std::vector<int> triangles;
  Eigen::MatrixXi dofs;                              ///< (size, triangles), global unknowns
  Eigen::ArrayXXd weight;                            ///< (points, triangles), 2 pi r |J| w [m^3]
  Eigen::ArrayXXd r_xi, r_eta, z_xi, z_eta, z_v, a;  ///< (points, triangles)

  const BatchTable& table() const { return batch_table(order, n); }
};

/// All triangles of the regions that are asked for, in batches small enough to stay in a core's cache.
/// @param wanted  one entry a region of the mesh
std::vector<ElementBatch> batches_of(const Space& space, const std::vector<char>& wanted);

/// Coefficients of a batch: column = triangle. @param dofs  as ElementBatch::dofs, numbers into x
void gather(const Eigen::MatrixXi& dofs, const Eigen::VectorXd& x, Eigen::MatrixXd& own);
/// The way back: adds each entry to its unknown.
void scatter(const Eigen::MatrixXi& dofs, const Eigen::MatrixXd& own, Eigen::Ref<Eigen::VectorXd> x);

/// A symmetric form of the fields, int (B_r, B_z) . T . (B_r, B_z)' dV with T = [rr rz; rz zz] at each point,
/// as element matrices: column = triangle, rows the lower triangle column by column.
/// @param rr,rz,zz  (points, triangles), the weight included; rz may be empty: zero
void form_matrices(const ElementBatch& batch, const Eigen::ArrayXXd& rr, const Eigen::ArrayXXd& rz,
                   const Eigen::ArrayXXd& zz, Eigen::MatrixXd& work, Eigen::MatrixXd& packed);

/// B at every point from the batch's coefficients. @param slots  work, (3 points, triangles)
void flux_densities(const ElementBatch& batch, const Eigen::MatrixXd& own, Eigen::MatrixXd& slots,
                    Eigen::ArrayXXd& b_r, Eigen::ArrayXXd& b_z);
/// own_i += int H . B_i dV. @param h_r,h_z  (points, triangles), the weight included
void test_with_fields(const ElementBatch& batch, const Eigen::ArrayXXd& h_r, const Eigen::ArrayXXd& h_z,
                      Eigen::MatrixXd& slots, Eigen::MatrixXd& own);

}  // namespace coilpull::detail
