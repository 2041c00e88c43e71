// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include <Eigen/SparseCore>
#include <vector>

namespace coilpull::detail {

/// Groups of unknowns that meet in one small dense matrix each (triangles, a boundary, an interface).
struct Groups {
  std::vector<int> start = {0};  ///< (n_groups + 1)
  std::vector<int> members;      ///< unknowns of group g: members[start[g]] ... members[start[g+1]-1]
  void add(const int* first, std::size_t count) {
    members.insert(members.end(), first, first + count);
    start.push_back(static_cast<int>(members.size()));
  }
  int size() const { return static_cast<int>(start.size()) - 1; }
  const int* begin(int group) const { return members.data() + start[group]; }
  int count(int group) const { return start[group + 1] - start[group]; }
};

/// Lower triangle, all zero, with an entry for every pair of unknowns that share a group, and every diagonal.
Eigen::SparseMatrix<double> symmetric_pattern(int unknowns, const Groups& groups);

/// Where each pair (row i, column j <= i of the small matrix, column by column) of a group stands among the
/// values of the pattern: scatter by these, and assembly never searches.
void append_places(const Eigen::SparseMatrix<double>& pattern, const int* members, std::ptrdiff_t count,
                   std::vector<int>& places);

/// Adds the lower triangle of a small matrix at its places.
void add_at(Eigen::SparseMatrix<double>& matrix, const int* places, const Eigen::MatrixXd& small);
/// The same of many matrices whose lower triangles are packed in columns; their places follow one another.
void add_packed(Eigen::SparseMatrix<double>& matrix, const int* places, const Eigen::MatrixXd& packed);

}  // namespace coilpull::detail
