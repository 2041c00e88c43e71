// SPDX-License-Identifier: GPL-3.0-or-later
#include "solver/fem/quadrature.hpp"

#include <doctest/doctest.h>

#include <cmath>

#include "tests/near.hpp"

using namespace coilpull;
using namespace coilpull::detail;

TEST_CASE("the triangle rule of n squared points integrates every monomial up to degree 2n - 1") {
  // int xi^a eta^b over the reference triangle = a! b! / (a + b + 2)!  (Euler's beta integral).
  for (const int n : {1, 2, 3, 5, 8, 12, 20})
    for (int a = 0; a <= 2 * n - 1; ++a)
      for (int b = 0; a + b <= 2 * n - 1; ++b) {
        const TriangleRule rule = triangle_rule(n);
        const double sum = (rule.points.row(0).array().pow(a) * rule.points.row(1).array().pow(b) *
                            rule.weights.transpose().array())
                               .sum();
        INFO("n = " << n << ", xi^" << a << " eta^" << b);
        CHECK(sum == near(std::tgamma(a + 1) * std::tgamma(b + 1) / std::tgamma(a + b + 3), 1e-11));
      }
}

TEST_CASE("the triangle rule is not exact one degree higher, so that the test above can fail") {
  const TriangleRule rule = triangle_rule(2);
  const double sum = (rule.points.row(0).array().pow(4) * rule.weights.transpose().array()).sum();
  CHECK(std::abs(sum * 30 - 1) > 1e-3);
}

TEST_CASE("weights are positive and points lie inside the triangle") {
  for (int n = 1; n <= 40; ++n) {
    const TriangleRule rule = triangle_rule(n);
    CHECK(rule.weights.minCoeff() > 0);
    CHECK(rule.points.minCoeff() > 0);
    CHECK(rule.points.colwise().sum().maxCoeff() < 1);
  }
}
