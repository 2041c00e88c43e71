// SPDX-License-Identifier: GPL-3.0-or-later
#include "solver/fem/sparse_pattern.hpp"

#include <algorithm>

namespace coilpull::detail {

Eigen::SparseMatrix<double> symmetric_pattern(int unknowns, const Groups& groups) {
  // Which groups hold an unknown.
  std::vector<int> first(unknowns + 1, 0), holders(groups.members.size());
  for (const int member : groups.members) ++first[member + 1];
  for (int i = 0; i < unknowns; ++i) first[i + 1] += first[i];
  std::vector<int> next(first.begin(), first.end() - 1);
  for (int g = 0; g < groups.size(); ++g)
    for (int k = 0; k < groups.count(g); ++k) holders[next[groups.begin(g)[k]]++] = g;

  std::vector<int> outer(unknowns + 1, 0), rows, seen(unknowns, -1);
  rows.reserve(groups.members.size() * 6);
  for (int column = 0; column < unknowns; ++column) {
    const std::size_t begin = rows.size();
    rows.push_back(column);
    seen[column] = column;
    for (int h = first[column]; h < first[column + 1]; ++h)
      for (int k = 0; k < groups.count(holders[h]); ++k) {
        const int row = groups.begin(holders[h])[k];
        if (row <= column || seen[row] == column) continue;
        seen[row] = column;
        rows.push_back(row);
      }
    std::sort(rows.begin() + begin, rows.end());
    outer[column + 1] = static_cast<int>(rows.size());
  }
  const std::vector<double> zeros(rows.size(), 0.0);
  return Eigen::Map<const Eigen::SparseMatrix<double>>(
      unknowns, unknowns, static_cast<Eigen::Index>(rows.size()), outer.data(), rows.data(), zeros.data());
}

void append_places(const Eigen::SparseMatrix<double>& pattern, const int* members, std::ptrdiff_t count,
                   std::vector<int>& places) {
  const int* rows = pattern.innerIndexPtr();
  const int* outer = pattern.outerIndexPtr();
  for (std::ptrdiff_t j = 0; j < count; ++j)
    for (std::ptrdiff_t i = j; i < count; ++i) {
      const auto [column, row] = std::minmax(members[i], members[j]);
      places.push_back(
          static_cast<int>(std::lower_bound(rows + outer[column], rows + outer[column + 1], row) - rows));
    }
}

void add_at(Eigen::SparseMatrix<double>& matrix, const int* places, const Eigen::MatrixXd& small) {
  double* values = matrix.valuePtr();
  for (Eigen::Index j = 0; j < small.cols(); ++j)
    for (Eigen::Index i = j; i < small.rows(); ++i) values[*places++] += small(i, j);
}

void add_packed(Eigen::SparseMatrix<double>& matrix, const int* places, const Eigen::MatrixXd& packed) {
  double* values = matrix.valuePtr();
  for (Eigen::Index k = 0; k < packed.size(); ++k) values[places[k]] += packed.data()[k];
}

}  // namespace coilpull::detail
