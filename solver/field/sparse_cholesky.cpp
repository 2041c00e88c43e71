// SPDX-License-Identifier: GPL-3.0-or-later
#include "solver/field/sparse_cholesky.hpp"

#include <Eigen/Cholesky>
#include <algorithm>

#include "solver/field/elimination_plan.hpp"

namespace coilpull::detail {

using Eigen::MatrixXd;
using Panel = Eigen::Map<MatrixXd>;
using ConstPanel = Eigen::Map<const MatrixXd>;

/// All that follows from the pattern.
struct SparseCholesky::Blocks {
  struct Block {
    int first, pivots, rows;  ///< numbers eliminated, and rows of its columns (own first)
    std::size_t panel;        ///< start of its (rows, pivots) columns in panels_
    const int* row_numbers;
    int parent;  ///< block that takes what is left over; -1: the kept unknowns
    std::vector<int>
        into_parent;  ///< place of each row below the pivots in the parent's rows (or kept number)
    std::vector<int> children = {};
  };

  std::vector<int> pattern;  ///< column starts, then row numbers
  EliminationPlan plan;
  std::vector<Block> all;
  std::size_t panels = 0;  ///< numbers in the columns of all blocks together
  /// Where each value of the pattern goes: into the panels, or ~place in the Schur complement.
  std::vector<std::ptrdiff_t> entry_place;

  Blocks(const Eigen::SparseMatrix<double>& matrix, int kept);
  bool fits(const Eigen::SparseMatrix<double>& matrix, int kept) const;

private:
  void find_parents();
  void place_entries(const Eigen::SparseMatrix<double>& matrix);
};

SparseCholesky::Blocks::Blocks(const Eigen::SparseMatrix<double>& matrix, int kept)
    : plan(plan_elimination(matrix, kept)) {
  pattern.assign(matrix.outerIndexPtr(), matrix.outerIndexPtr() + matrix.cols() + 1);
  pattern.insert(pattern.end(), matrix.innerIndexPtr(), matrix.innerIndexPtr() + matrix.nonZeros());
  for (std::size_t b = 0; b + 1 < plan.first.size() && plan.first[b] < plan.eliminated; ++b) {
    all.push_back({plan.first[b],
                   std::min(plan.first[b + 1], plan.eliminated) - plan.first[b],
                   plan.row_start[b + 1] - plan.row_start[b],
                   panels,
                   plan.rows.data() + plan.row_start[b],
                   -1,
                   {}});
    panels += static_cast<std::size_t>(all.back().rows) * all.back().pivots;
  }
  find_parents();
  place_entries(matrix);
}

bool SparseCholesky::Blocks::fits(const Eigen::SparseMatrix<double>& matrix, int kept) const {
  const std::ptrdiff_t columns = matrix.cols();
  return plan.eliminated == columns - kept &&
         static_cast<std::ptrdiff_t>(pattern.size()) == columns + 1 + matrix.nonZeros() &&
         std::equal(pattern.begin(), pattern.begin() + columns + 1, matrix.outerIndexPtr()) &&
         std::equal(pattern.begin() + columns + 1, pattern.end(), matrix.innerIndexPtr());
}

void SparseCholesky::Blocks::find_parents() {
  std::vector<int> block_of(plan.order.size(), -1);
  for (std::size_t b = 0; b < all.size(); ++b)
    for (int k = 0; k < all[b].pivots; ++k) block_of[all[b].first + k] = static_cast<int>(b);
  for (std::size_t b = 0; b < all.size(); ++b) {
    Block& block = all[b];
    if (block.rows == block.pivots) continue;
    const int first_below = block.row_numbers[block.pivots];
    if (first_below < plan.eliminated) {
      block.parent = block_of[first_below];
      all[block.parent].children.push_back(static_cast<int>(b));
    }
    for (int i = block.pivots; i < block.rows; ++i) {
      if (block.parent < 0) {
        block.into_parent.push_back(block.row_numbers[i] - plan.eliminated);
      } else {
        const Block& parent = all[block.parent];
        const int* end = parent.row_numbers + parent.rows;
        block.into_parent.push_back(static_cast<int>(
            std::lower_bound(parent.row_numbers, end, block.row_numbers[i]) - parent.row_numbers));
      }
    }
  }
}

void SparseCholesky::Blocks::place_entries(const Eigen::SparseMatrix<double>& matrix) {
  const int n = static_cast<int>(matrix.cols()), kept = n - plan.eliminated;
  std::vector<int> number(n), block_of(n, -1);
  for (int k = 0; k < n; ++k) number[plan.order[k]] = k;
  for (std::size_t b = 0; b < all.size(); ++b)
    for (int k = 0; k < all[b].pivots; ++k) block_of[all[b].first + k] = static_cast<int>(b);
  entry_place.reserve(static_cast<std::size_t>(matrix.nonZeros()));
  for (int column = 0; column < n; ++column)
    for (Eigen::SparseMatrix<double>::InnerIterator entry(matrix, column); entry; ++entry) {
      const auto [j, i] = std::minmax(number[column], number[static_cast<int>(entry.row())]);
      if (j >= plan.eliminated) {
        entry_place.push_back(~(std::ptrdiff_t(j - plan.eliminated) * kept + (i - plan.eliminated)));
        continue;
      }
      const Block& block = all[block_of[j]];
      const auto row =
          std::lower_bound(block.row_numbers, block.row_numbers + block.rows, i) - block.row_numbers;
      entry_place.push_back(static_cast<std::ptrdiff_t>(block.panel) +
                            std::ptrdiff_t(j - block.first) * block.rows + row);
    }
}

SparseCholesky::SparseCholesky(const Eigen::SparseMatrix<double>& pattern, int kept,
                               const SparseCholesky* like)
    : blocks_(like && like->blocks_->fits(pattern, kept) ? like->blocks_
                                                         : std::make_shared<const Blocks>(pattern, kept)),
      panels_(blocks_->panels),
      schur_(kept, kept) {}

bool SparseCholesky::factorise(const Eigen::SparseMatrix<double>& matrix) {
  std::fill(panels_.begin(), panels_.end(), 0.0);
  schur_.setZero();
  const double* value = matrix.valuePtr();
  for (const std::ptrdiff_t place : blocks_->entry_place)
    (place >= 0 ? panels_[place] : schur_.data()[~place]) = *value++;
  std::vector<MatrixXd> left_over(blocks_->all.size());
  for (std::size_t b = 0; b < blocks_->all.size(); ++b)
    if (!eliminate(static_cast<int>(b), left_over))
      return false;
    else if (blocks_->all[b].parent < 0) {
      const std::vector<int>& into = blocks_->all[b].into_parent;
      for (std::size_t j = 0; j < into.size(); ++j)
        for (std::size_t i = j; i < into.size(); ++i) schur_(into[i], into[j]) += left_over[b](i, j);
      left_over[b].resize(0, 0);
    }
  return true;
}

bool SparseCholesky::eliminate(int number, std::vector<MatrixXd>& left_over) {
  const Blocks::Block& block = blocks_->all[number];
  Panel panel(panels_.data() + block.panel, block.rows, block.pivots);
  const int below = block.rows - block.pivots;
  MatrixXd& rest = left_over[number];
  rest.setZero(below, below);
  for (const int child : block.children) {
    const std::vector<int>& into = blocks_->all[child].into_parent;
    const MatrixXd& update = left_over[child];
    for (std::size_t j = 0; j < into.size(); ++j) {
      double* column = into[j] < block.pivots ? panel.col(into[j]).data()
                                              : rest.col(into[j] - block.pivots).data() - block.pivots;
      for (std::size_t i = j; i < into.size(); ++i) column[into[i]] += update(i, j);
    }
    left_over[child].resize(0, 0);
  }
  auto pivots = panel.topRows(block.pivots);
  Eigen::LLT<Eigen::Ref<MatrixXd>> llt(pivots);
  if (llt.info() != Eigen::Success) return false;
  if (below == 0) return true;
  auto under = panel.bottomRows(below);
  pivots.triangularView<Eigen::Lower>().transpose().solveInPlace<Eigen::OnTheRight>(under);
  rest.selfadjointView<Eigen::Lower>().rankUpdate(under, -1.0);
  return true;
}

void SparseCholesky::forward(MatrixXd& b) const {
  MatrixXd y(b.rows(), b.cols());
  for (Eigen::Index k = 0; k < b.rows(); ++k) y.row(k) = b.row(blocks_->plan.order[k]);
  MatrixXd below;
  for (const Blocks::Block& block : blocks_->all) {
    const ConstPanel panel(panels_.data() + block.panel, block.rows, block.pivots);
    auto own = y.middleRows(block.first, block.pivots);
    panel.topRows(block.pivots).triangularView<Eigen::Lower>().solveInPlace(own);
    below.noalias() = panel.bottomRows(block.rows - block.pivots) * own;
    for (int i = block.pivots; i < block.rows; ++i)
      y.row(block.row_numbers[i]) -= below.row(i - block.pivots);
  }
  b.swap(y);
}

void SparseCholesky::backward(MatrixXd& b) const {
  MatrixXd below;
  for (auto block = blocks_->all.rbegin(); block != blocks_->all.rend(); ++block) {
    const ConstPanel panel(panels_.data() + block->panel, block->rows, block->pivots);
    below.resize(block->rows - block->pivots, b.cols());
    for (int i = block->pivots; i < block->rows; ++i)
      below.row(i - block->pivots) = b.row(block->row_numbers[i]);
    auto own = b.middleRows(block->first, block->pivots);
    own.noalias() -= panel.bottomRows(block->rows - block->pivots).transpose() * below;
    panel.topRows(block->pivots).triangularView<Eigen::Lower>().transpose().solveInPlace(own);
  }
  MatrixXd x(b.rows(), b.cols());
  for (Eigen::Index k = 0; k < b.rows(); ++k) x.row(blocks_->plan.order[k]) = b.row(k);
  b.swap(x);
}

}  // namespace coilpull::detail
