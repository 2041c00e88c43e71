// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include <Eigen/SparseCore>
#include <memory>

namespace coilpull::detail {

/// Cholesky factorisation of symmetric positive definite matrices of one pattern, given by their lower
/// triangle. The last `kept` unknowns are ordered last, among themselves as given.
class SparseCholesky {
public:
  /// Ordering and symbolic part, once. CAMD: Amestoy, Davis and Duff, ACM TOMS 30 (2004) 381.
  /// CHOLMOD's simplicial kernel throughout: the supernodal one calls BLAS, and a single-threaded OpenBLAS,
  /// when that is what the machine has, gives wrong factors to two threads at once (seen).
  explicit SparseCholesky(const Eigen::SparseMatrix<double>& pattern, int kept = 0);
  ~SparseCholesky();
  SparseCholesky(SparseCholesky&&) noexcept;

  [[nodiscard]] bool factorise(const Eigen::SparseMatrix<double>& matrix);  ///< false: not positive definite
  void solve(const Eigen::VectorXd& rhs, Eigen::VectorXd& x) const;

  /// The factor of the unknowns before the kept ones, and what is left of the matrix on the kept ones:
  ///     A = [A11 A21'; A21 A22],  A11 = P'L11 L11'P,  L21 = A21 P' L11^-T,  schur = A22 - L21 L21'.
  struct Parts {
    Eigen::VectorXi order;  ///< order[k]: the unknown that P puts at place k
    Eigen::SparseMatrix<double> l11, l21;
    Eigen::MatrixXd schur;  ///< lower and upper triangle
  };
  Parts parts() const;  ///< of the last factorisation

private:
  struct Factor;
  std::unique_ptr<Factor> factor_;
};

}  // namespace coilpull::detail
