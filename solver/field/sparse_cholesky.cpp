// SPDX-License-Identifier: GPL-3.0-or-later
#include "solver/field/sparse_cholesky.hpp"

#include <cholmod.h>

#include <stdexcept>
#include <vector>

namespace coilpull::detail {
namespace {

cholmod_sparse view_of(const Eigen::SparseMatrix<double>& matrix) {
  cholmod_sparse view{};
  view.nrow = view.ncol = static_cast<std::size_t>(matrix.cols());
  view.nzmax = static_cast<std::size_t>(matrix.nonZeros());
  view.p = const_cast<int*>(matrix.outerIndexPtr());
  view.i = const_cast<int*>(matrix.innerIndexPtr());
  view.x = const_cast<double*>(matrix.valuePtr());
  view.stype = -1;
  view.itype = CHOLMOD_INT;
  view.xtype = CHOLMOD_REAL;
  view.dtype = CHOLMOD_DOUBLE;
  view.sorted = view.packed = 1;
  return view;
}

}  // namespace

struct SparseCholesky::Factor {
  mutable cholmod_common common;
  cholmod_factor* factor = nullptr;
  mutable cholmod_dense *solution = nullptr, *work_y = nullptr, *work_e = nullptr;
  int kept = 0;
  Factor() {
    cholmod_start(&common);
    common.print = 0;
    common.try_catch = 1;
  }
  ~Factor() {
    cholmod_free_factor(&factor, &common);
    for (cholmod_dense** dense : {&solution, &work_y, &work_e}) cholmod_free_dense(dense, &common);
    cholmod_finish(&common);
  }
};

SparseCholesky::SparseCholesky(const Eigen::SparseMatrix<double>& pattern, int kept)
    : factor_(std::make_unique<Factor>()) {
  cholmod_common& common = factor_->common;
  factor_->kept = kept;
  const int n = static_cast<int>(pattern.cols());
  cholmod_sparse view = view_of(pattern);
  std::vector<int> member(n, 0), order(n);
  for (int i = n - kept; i < n; ++i) member[i] = 1;
  if (!cholmod_camd(&view, nullptr, 0, kept > 0 ? member.data() : nullptr, order.data(), &common))
    throw std::runtime_error("out of memory while ordering a sparse matrix");
  for (int i = n - kept; i < n; ++i) order[i] = i;  // all couple: any order among them costs the same
  common.nmethods = 1;
  common.method[0].ordering = CHOLMOD_GIVEN;
  common.postorder = 0;
  common.supernodal = CHOLMOD_SIMPLICIAL;
  common.final_ll = 1;
  factor_->factor = cholmod_analyze_p(&view, order.data(), nullptr, 0, &common);
  if (!factor_->factor) throw std::runtime_error("out of memory while analysing a sparse matrix");
}

SparseCholesky::~SparseCholesky() = default;
SparseCholesky::SparseCholesky(SparseCholesky&&) noexcept = default;

bool SparseCholesky::factorise(const Eigen::SparseMatrix<double>& matrix) {
  cholmod_sparse view = view_of(matrix);
  return cholmod_factorize(&view, factor_->factor, &factor_->common) && factor_->common.status == CHOLMOD_OK;
}

void SparseCholesky::solve(const Eigen::VectorXd& rhs, Eigen::VectorXd& x) const {
  cholmod_dense view{};
  view.nrow = view.nzmax = view.d = static_cast<std::size_t>(rhs.size());
  view.ncol = 1;
  view.x = const_cast<double*>(rhs.data());
  view.xtype = CHOLMOD_REAL;
  view.dtype = CHOLMOD_DOUBLE;
  Factor& f = *factor_;
  cholmod_solve2(CHOLMOD_A, f.factor, &view, nullptr, &f.solution, nullptr, &f.work_y, &f.work_e, &f.common);
  x = Eigen::Map<const Eigen::VectorXd>(static_cast<double*>(f.solution->x), rhs.size());
}

SparseCholesky::Parts SparseCholesky::parts() const {
  const cholmod_factor& f = *factor_->factor;
  const int n = static_cast<int>(f.n), kept = factor_->kept, first = n - kept;
  const int* outer = static_cast<const int*>(f.p);
  const int* count = static_cast<const int*>(f.nz);
  const int* rows = static_cast<const int*>(f.i);
  const double* values = static_cast<const double*>(f.x);

  Parts parts;
  parts.order = Eigen::Map<const Eigen::VectorXi>(static_cast<const int*>(f.Perm), first);
  parts.l11.resize(first, first);
  parts.l21.resize(kept, first);
  parts.l11.reserve(static_cast<Eigen::Index>(f.nzmax));
  for (int j = 0; j < first; ++j) {
    parts.l11.startVec(j);
    parts.l21.startVec(j);
    for (int k = outer[j]; k < outer[j] + count[j]; ++k) {
      if (rows[k] < first)
        parts.l11.insertBack(rows[k], j) = values[k];
      else
        parts.l21.insertBack(rows[k] - first, j) = values[k];
    }
  }
  parts.l11.finalize();
  parts.l21.finalize();
  Eigen::MatrixXd l22 = Eigen::MatrixXd::Zero(kept, kept);
  for (int j = first; j < n; ++j)
    for (int k = outer[j]; k < outer[j] + count[j]; ++k) l22(rows[k] - first, j - first) = values[k];
  parts.schur.noalias() = l22 * l22.transpose();
  return parts;
}

}  // namespace coilpull::detail
