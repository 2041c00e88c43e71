// SPDX-License-Identifier: GPL-3.0-or-later
#include "solver/field/sparse_cholesky.hpp"

#include <doctest/doctest.h>

#include <Eigen/Cholesky>
#include <Eigen/LU>
#include <random>

using namespace coilpull::detail;

namespace {

/// Lower triangle of a random sparse diagonally dominant matrix whose last `kept` unknowns all couple.
Eigen::SparseMatrix<double> random_matrix(int n, int kept, unsigned seed) {
  std::mt19937 random(seed);
  std::uniform_real_distribution<double> value(-1, 1);
  std::uniform_int_distribution<int> pick(0, n - 1);
  Eigen::MatrixXd dense = Eigen::MatrixXd::Zero(n, n);
  for (int k = 0; k < 4 * n; ++k) dense(pick(random), pick(random)) = value(random);
  for (int i = n - kept; i < n; ++i)
    for (int j = n - kept; j < n; ++j) dense(i, j) = value(random);
  dense = (dense + dense.transpose()).eval();
  for (int i = 0; i < n; ++i) dense(i, i) = 1 + dense.row(i).cwiseAbs().sum();
  return Eigen::MatrixXd(dense.triangularView<Eigen::Lower>()).sparseView();
}

Eigen::MatrixXd full(const Eigen::SparseMatrix<double>& lower) {
  return Eigen::MatrixXd(lower).selfadjointView<Eigen::Lower>();
}

}  // namespace

TEST_CASE("the factorisation solves what Eigen's dense one solves") {
  for (unsigned seed = 1; seed <= 20; ++seed) {
    const int n = 30 + 7 * static_cast<int>(seed);
    const Eigen::SparseMatrix<double> a = random_matrix(n, 0, seed);
    SparseCholesky cholesky(a);
    REQUIRE(cholesky.factorise(a));
    const Eigen::MatrixXd rhs = Eigen::MatrixXd::Random(n, 3);
    Eigen::MatrixXd x = rhs;
    cholesky.forward(x);
    cholesky.backward(x);
    const Eigen::MatrixXd expected = full(a).llt().solve(rhs);
    CHECK((x - expected).norm() < 1e-13 * expected.norm());  // condition below 100
  }
}

TEST_CASE("what is kept is the Schur complement, and both ways through it give the solution") {
  for (unsigned seed = 1; seed <= 20; ++seed) {
    const int n = 60 + 5 * static_cast<int>(seed), kept = 12, gone = n - kept;
    const Eigen::SparseMatrix<double> a = random_matrix(n, kept, seed);
    SparseCholesky cholesky(a, kept);
    REQUIRE(cholesky.factorise(a));
    const Eigen::MatrixXd whole = full(a);
    const Eigen::MatrixXd schur =
        whole.bottomRightCorner(kept, kept) -
        whole.bottomLeftCorner(kept, gone) *
            whole.topLeftCorner(gone, gone).llt().solve(whole.topRightCorner(gone, kept));
    const Eigen::MatrixXd ours = cholesky.schur().selfadjointView<Eigen::Lower>();
    CHECK((ours - schur).norm() < 1e-13 * schur.norm());
    const Eigen::MatrixXd rhs = Eigen::MatrixXd::Random(n, 1);
    Eigen::MatrixXd x = rhs;
    cholesky.forward(x);
    x.bottomRows(kept) = schur.llt().solve(x.bottomRows(kept)).eval();
    cholesky.backward(x);
    CHECK((whole * x - rhs).norm() < 1e-13 * rhs.norm() * whole.norm());
  }
}

TEST_CASE("a matrix that is not positive definite is refused, and the next good one is not") {
  Eigen::SparseMatrix<double> good = random_matrix(40, 0, 3), bad = good;
  bad.coeffRef(17, 17) = -1;
  SparseCholesky cholesky(good);
  CHECK_FALSE(cholesky.factorise(bad));
  CHECK(cholesky.factorise(good));
}
