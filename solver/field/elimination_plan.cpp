// SPDX-License-Identifier: GPL-3.0-or-later
#include "solver/field/elimination_plan.hpp"

#include <cholmod.h>

#include <algorithm>
#include <stdexcept>
#include <string>

#include "solver/field/cholmod_version.hpp"

namespace coilpull::detail {
namespace {

struct Analysis {
  cholmod_common common;
  cholmod_factor* factor = nullptr;
  Analysis() {
    cholmod_start(&common);
    common.print = 0;
    common.try_catch = 1;
    common.nmethods = 1;
    common.method[0].ordering = CHOLMOD_GIVEN;
    common.supernodal = CHOLMOD_SUPERNODAL;
  }
  ~Analysis() {
    cholmod_free_factor(&factor, &common);
    cholmod_finish(&common);
  }
  Analysis(const Analysis&) = delete;
  Analysis& operator=(const Analysis&) = delete;
};

cholmod_sparse view_of(const Eigen::SparseMatrix<double>& matrix) {
  cholmod_sparse view{};
  view.nrow = view.ncol = static_cast<std::size_t>(matrix.cols());
  view.nzmax = static_cast<std::size_t>(matrix.nonZeros());
  view.p = const_cast<int*>(matrix.outerIndexPtr());
  view.i = const_cast<int*>(matrix.innerIndexPtr());
  view.stype = -1;
  view.itype = CHOLMOD_INT;
  view.xtype = CHOLMOD_PATTERN;
  view.dtype = CHOLMOD_DOUBLE;
  view.sorted = view.packed = 1;
  return view;
}

bool keeps_last(const cholmod_factor& factor, int eliminated) {
  const int* order = static_cast<const int*>(factor.Perm);
  for (int k = eliminated; k < static_cast<int>(factor.n); ++k)
    if (order[k] != k) return false;
  return true;
}

}  // namespace

EliminationPlan plan_elimination(const Eigen::SparseMatrix<double>& pattern, int kept) {
  const int n = static_cast<int>(pattern.cols());
  EliminationPlan plan;
  plan.eliminated = n - kept;
  Analysis analysis;
  cholmod_sparse view = view_of(pattern);
  std::vector<int> member(n, 0), order(n);
  for (int i = plan.eliminated; i < n; ++i) member[i] = 1;
  if (!cholmod_camd(&view, nullptr, 0, kept > 0 ? member.data() : nullptr, order.data(), &analysis.common))
    throw std::runtime_error("out of memory while ordering a sparse matrix");
  for (int i = plan.eliminated; i < n; ++i) order[i] = i;  // all coupled: any order among them costs the same
  for (const int postorder :
       {1, 0}) {  // postordering gathers larger blocks; it may move kept unknowns forward
    analysis.common.postorder = postorder;
    cholmod_free_factor(&analysis.factor, &analysis.common);
    analysis.factor = cholmod_analyze_p(&view, order.data(), nullptr, 0, &analysis.common);
    if (!analysis.factor) throw std::runtime_error("out of memory while analysing a sparse matrix");
    if (keeps_last(*analysis.factor, plan.eliminated)) break;
  }
  const cholmod_factor& f = *analysis.factor;
  const auto copy = [](void* data, std::size_t count) {
    return std::vector<int>(static_cast<int*>(data), static_cast<int*>(data) + count);
  };
  plan.order = copy(f.Perm, f.n);
  plan.first = copy(f.super, f.nsuper + 1);
  plan.row_start = copy(f.pi, f.nsuper + 1);
  plan.rows = copy(f.s, f.ssize);
  return plan;
}

}  // namespace coilpull::detail

namespace coilpull {

std::string cholmod_version() {
  int parts[3] = {};
  ::cholmod_version(parts);
  return std::to_string(parts[0]) + "." + std::to_string(parts[1]) + "." + std::to_string(parts[2]);
}

}  // namespace coilpull
