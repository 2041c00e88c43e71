// SPDX-License-Identifier: GPL-3.0-or-later
#include "materials/detail/nonnegative_least_squares.hpp"

#include <doctest/doctest.h>

#include <random>

#include "tests/near.hpp"

using namespace coilpull;

TEST_CASE("least squares without negative unknowns: no unknown can be moved any more and gain") {
  // The conditions of Karush, Kuhn and Tucker, which the minimum of a convex function under x >= 0 alone
  // meets: slope a^T (b - a x) zero where x > 0, not positive where x = 0. Seeded matrices of few rows and
  // many columns that are alike, so that unknowns which were let go have to be held at zero again.
  std::mt19937 random(11);
  std::uniform_real_distribution<double> number(-1, 1);
  int held = 0, used = 0;
  for (int k = 0; k < 50; ++k) {
    const Eigen::Index rows = 6 + k % 5, columns = 4 + k % 9;
    Eigen::MatrixXd a(rows, columns);
    Eigen::VectorXd b(rows);
    for (Eigen::Index i = 0; i < rows; ++i) {
      b[i] = 1 + number(random);
      for (Eigen::Index j = 0; j < columns; ++j)
        a(i, j) = 1 + 0.5 * number(random) + (j % 2 == 0 ? 0 : number(random));
    }
    const Eigen::VectorXd x = detail::nonnegative_least_squares(a, b), slope = a.transpose() * (b - a * x);
    const double rounding =
        1e-11 * a.norm() * b.norm();  // of products of this size; the method stops at 1e-12
    for (Eigen::Index j = 0; j < columns; ++j) {
      REQUIRE(x[j] >= 0);
      CHECK(slope[j] <= rounding);
      if (x[j] > 0) CHECK(slope[j] >= -rounding);
      x[j] > 0 ? ++used : ++held;
    }
  }
  CHECK(held > 50);  // both kinds occur
  CHECK(used > 50);
}

TEST_CASE("least squares without negative unknowns of what only a negative number meets is zero") {
  const Eigen::MatrixXd a = Eigen::MatrixXd::Identity(3, 3);
  CHECK(detail::nonnegative_least_squares(a, Eigen::Vector3d(-1, -2, -3)).isZero(0));
  const Eigen::VectorXd mixed = detail::nonnegative_least_squares(a, Eigen::Vector3d(1, -2, 3));
  CHECK(mixed[0] == near(1, 1e-15));
  CHECK(mixed[1] == 0);
  CHECK(mixed[2] == near(3, 1e-15));
}
