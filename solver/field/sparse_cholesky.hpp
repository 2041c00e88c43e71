// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include <Eigen/SparseCore>
#include <memory>
#include <vector>

namespace coilpull::detail {

/// Cholesky factorisation of symmetric positive definite matrices of one pattern, stopped before the last
/// `kept` unknowns. In the order of elimination
///     A = [A11 A21'; A21 A22],   A11 = L11 L11',   L21 = A21 L11^-T,   schur = A22 - L21 L21'.
/// Multifrontal: each block of columns is a small dense matrix that gathers its entries and what its children
/// left over (Duff and Reid, ACM TOMS 9 (1983) 302). Dense kernels are Eigen's: BLAS is not called, since a
/// single-threaded OpenBLAS, when that is what a machine has, gives wrong factors to two threads at once
/// (seen).
class SparseCholesky {
public:
  /// @param pattern  lower triangle with every diagonal entry
  /// @param like     may be null; when it is of the same pattern, its order of elimination is taken over,
  /// which
  ///                 costs several times what a factorisation does
  explicit SparseCholesky(const Eigen::SparseMatrix<double>& pattern, int kept = 0,
                          const SparseCholesky* like = nullptr);

  /// @return false: the eliminated block is not positive definite
  [[nodiscard]] bool factorise(const Eigen::SparseMatrix<double>& matrix);

  const Eigen::MatrixXd& schur() const { return schur_; }  ///< (kept, kept), lower triangle

  /// b (all unknowns, any number of columns) becomes [L11^-1 b1; b2 - L21 L11^-1 b1]: b1 in the order of
  /// elimination, the kept ones as given.
  void forward(Eigen::MatrixXd& b) const;
  /// The way back: [y1; x2] becomes the unknowns [L11^-T (y1 - L21' x2); x2].
  void backward(Eigen::MatrixXd& b) const;

private:
  struct Blocks;
  bool eliminate(int number, std::vector<Eigen::MatrixXd>& left_over);

  std::shared_ptr<const Blocks> blocks_;
  std::vector<double> panels_;
  Eigen::MatrixXd schur_;
};

}  // namespace coilpull::detail
