// SPDX-License-Identifier: GPL-3.0-or-later
#include "solver/field/sparse_cholesky.hpp"

#include <Eigen/Cholesky>
#include <algorithm>

namespace coilpull::detail {

using Eigen::MatrixXd;
using Panel = Eigen::Map<MatrixXd>;
using ConstPanel = Eigen::Map<const MatrixXd>;

SparseCholesky::SparseCholesky(const Eigen::SparseMatrix<double>& pattern, int kept)
    : plan_(plan_elimination(pattern, kept)) {
  const int n = static_cast<int>(pattern.cols());
  std::vector<int> block_of(n, -1);
  std::size_t size = 0;
  for (std::size_t b = 0; b + 1 < plan_.first.size() && plan_.first[b] < plan_.eliminated; ++b) {
    Block block{plan_.first[b],
                std::min(plan_.first[b + 1], plan_.eliminated) - plan_.first[b],
                plan_.row_start[b + 1] - plan_.row_start[b],
                size,
                plan_.rows.data() + plan_.row_start[b],
                -1,
                {}};
    for (int k = 0; k < block.pivots; ++k) block_of[block.first + k] = static_cast<int>(b);
    size += static_cast<std::size_t>(block.rows) * block.pivots;
    blocks_.push_back(std::move(block));
  }
  panels_.resize(size);
  schur_.resize(kept, kept);
  children_.resize(blocks_.size());
  for (std::size_t b = 0; b < blocks_.size(); ++b) {
    Block& block = blocks_[b];
    if (block.rows == block.pivots) continue;
    const int first_below = block.row_numbers[block.pivots];
    if (first_below < plan_.eliminated) {
      block.parent = block_of[first_below];
      children_[block.parent].push_back(static_cast<int>(b));
    }
    for (int i = block.pivots; i < block.rows; ++i) {
      if (block.parent < 0) {
        block.into_parent.push_back(block.row_numbers[i] - plan_.eliminated);
      } else {
        const Block& parent = blocks_[block.parent];
        const int* end = parent.row_numbers + parent.rows;
        block.into_parent.push_back(static_cast<int>(
            std::lower_bound(parent.row_numbers, end, block.row_numbers[i]) - parent.row_numbers));
      }
    }
  }
  place_entries(pattern);
}

void SparseCholesky::place_entries(const Eigen::SparseMatrix<double>& pattern) {
  const int n = static_cast<int>(pattern.cols()), kept = n - plan_.eliminated;
  std::vector<int> number(n), block_of(n, -1);
  for (int k = 0; k < n; ++k) number[plan_.order[k]] = k;
  for (std::size_t b = 0; b < blocks_.size(); ++b)
    for (int k = 0; k < blocks_[b].pivots; ++k) block_of[blocks_[b].first + k] = static_cast<int>(b);
  entry_place_.reserve(static_cast<std::size_t>(pattern.nonZeros()));
  for (int column = 0; column < n; ++column)
    for (Eigen::SparseMatrix<double>::InnerIterator entry(pattern, column); entry; ++entry) {
      const auto [j, i] = std::minmax(number[column], number[static_cast<int>(entry.row())]);
      if (j >= plan_.eliminated) {
        entry_place_.push_back(~(std::ptrdiff_t(j - plan_.eliminated) * kept + (i - plan_.eliminated)));
        continue;
      }
      const Block& block = blocks_[block_of[j]];
      const auto row =
          std::lower_bound(block.row_numbers, block.row_numbers + block.rows, i) - block.row_numbers;
      entry_place_.push_back(static_cast<std::ptrdiff_t>(block.panel) +
                             std::ptrdiff_t(j - block.first) * block.rows + row);
    }
}

bool SparseCholesky::factorise(const Eigen::SparseMatrix<double>& matrix) {
  std::fill(panels_.begin(), panels_.end(), 0.0);
  schur_.setZero();
  const double* value = matrix.valuePtr();
  for (const std::ptrdiff_t place : entry_place_)
    (place >= 0 ? panels_[place] : schur_.data()[~place]) = *value++;
  std::vector<MatrixXd> left_over(blocks_.size());
  for (std::size_t b = 0; b < blocks_.size(); ++b)
    if (!eliminate(blocks_[b], left_over, children_[b]))
      return false;
    else if (blocks_[b].parent < 0) {
      const std::vector<int>& into = blocks_[b].into_parent;
      for (std::size_t j = 0; j < into.size(); ++j)
        for (std::size_t i = j; i < into.size(); ++i) schur_(into[i], into[j]) += left_over[b](i, j);
      left_over[b].resize(0, 0);
    }
  return true;
}

bool SparseCholesky::eliminate(Block& block, std::vector<MatrixXd>& left_over,
                               const std::vector<int>& children) {
  Panel panel(panels_.data() + block.panel, block.rows, block.pivots);
  const int below = block.rows - block.pivots;
  MatrixXd& rest = left_over[&block - blocks_.data()];
  rest.setZero(below, below);
  for (const int child : children) {
    const std::vector<int>& into = blocks_[child].into_parent;
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
  for (Eigen::Index k = 0; k < b.rows(); ++k) y.row(k) = b.row(plan_.order[k]);
  MatrixXd below;
  for (const Block& block : blocks_) {
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
  for (auto block = blocks_.rbegin(); block != blocks_.rend(); ++block) {
    const ConstPanel panel(panels_.data() + block->panel, block->rows, block->pivots);
    below.resize(block->rows - block->pivots, b.cols());
    for (int i = block->pivots; i < block->rows; ++i)
      below.row(i - block->pivots) = b.row(block->row_numbers[i]);
    auto own = b.middleRows(block->first, block->pivots);
    own.noalias() -= panel.bottomRows(block->rows - block->pivots).transpose() * below;
    panel.topRows(block->pivots).triangularView<Eigen::Lower>().transpose().solveInPlace(own);
  }
  MatrixXd x(b.rows(), b.cols());
  for (Eigen::Index k = 0; k < b.rows(); ++k) x.row(plan_.order[k]) = b.row(k);
  b.swap(x);
}

}  // namespace coilpull::detail
