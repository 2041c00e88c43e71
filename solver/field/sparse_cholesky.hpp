// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include <Eigen/SparseCore>
#include <vector>

#include "solver/field/elimination_plan.hpp"

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
  explicit SparseCholesky(const Eigen::SparseMatrix<double>& pattern, int kept = 0);

  /// @return false: the eliminated block is not positive definite
  [[nodiscard]] bool factorise(const Eigen::SparseMatrix<double>& matrix);

  const Eigen::MatrixXd& schur() const { return schur_; }  ///< (kept, kept), lower triangle

  /// b (all unknowns, any number of columns) becomes [L11^-1 b1; b2 - L21 L11^-1 b1]: b1 in the order of
  /// elimination, the kept ones as given.
  void forward(Eigen::MatrixXd& b) const;
  /// The way back: [y1; x2] becomes the unknowns [L11^-T (y1 - L21' x2); x2].
  void backward(Eigen::MatrixXd& b) const;

private:
  struct Block {
    int first, pivots, rows;  ///< numbers eliminated, and rows of its columns (own first)
    std::size_t panel;        ///< start of its (rows, pivots) columns in panels_
    const int* row_numbers;
    int parent;  ///< block that takes what is left over; -1: the kept unknowns
    std::vector<int>
        into_parent;  ///< place of each row below the pivots in the parent's rows (or kept number)
  };
  void place_entries(const Eigen::SparseMatrix<double>& pattern);
  bool eliminate(Block& block, std::vector<Eigen::MatrixXd>& left_over, const std::vector<int>& children);

  EliminationPlan plan_;
  std::vector<Block> blocks_;
  std::vector<std::vector<int>> children_;
  std::vector<std::ptrdiff_t>
      entry_place_;  ///< where each value of the pattern goes: panels_, or ~place in schur_
  std::vector<double> panels_;
  Eigen::MatrixXd schur_;
};

}  // namespace coilpull::detail
