// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include <Eigen/SparseCore>
#include <vector>

namespace coilpull::detail {

/// In which order a symmetric positive definite matrix is eliminated, and what fills in: columns gathered
/// into blocks (supernodes) whose rows coincide. Depends on the pattern alone.
struct EliminationPlan {
  std::vector<int>
      order;  ///< order[k]: the unknown eliminated as number k; the kept ones come last, as given
  std::vector<int> first;      ///< (blocks + 1): block b eliminates numbers first[b] ... first[b+1]-1
  std::vector<int> row_start;  ///< (blocks + 1) into rows
  std::vector<int> rows;       ///< numbers with an entry in the block's columns, rising, its own first
  int eliminated = 0;          ///< numbers from here on are kept
};

/// Constrained minimum degree (Amestoy, Davis and Duff, ACM TOMS 30 (2004) 381) and the symbolic analysis of
/// CHOLMOD (Chen, Davis, Hager and Rajamanickam, ACM TOMS 35 (2008) 22).
/// @param pattern  lower triangle with every diagonal entry
/// @param kept     how many of the last unknowns are not eliminated; they must all be coupled by what is
EliminationPlan plan_elimination(const Eigen::SparseMatrix<double>& pattern, int kept);

}  // namespace coilpull::detail
