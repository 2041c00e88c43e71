// SPDX-License-Identifier: GPL-3.0-or-later
#include "solver/field/newton.hpp"

#include <doctest/doctest.h>

#include <cmath>
#include <limits>

#include "tests/near.hpp"

using namespace coilpull;
using detail::ConvexEnergy;
using Eigen::VectorXd;

namespace {

/// Sum of w(x_i) - b_i x_i with h = w' and slope h' given as functions.
template <class H, class Slope>
NewtonReport minimise_sum(H h, Slope slope, const VectorXd& b, VectorXd& x, const NewtonOptions& options = {},
                          int* factorisations = nullptr) {
  VectorXd at, diagonal;
  const ConvexEnergy energy{[&](const VectorXd& point, VectorXd& g) {
                              at = point;
                              g = point.unaryExpr(h) - b;
                              return std::abs(point.dot(point.unaryExpr(h)));
                            },
                            [&] {
                              if (factorisations) ++*factorisations;
                              diagonal = at.unaryExpr(slope);
                              return diagonal.minCoeff() > 0;
                            },
                            [&](const VectorXd& g, VectorXd& d) { d = -g.cwiseQuotient(diagonal); }};
  return detail::minimise(energy, x, options);
}

}  // namespace

TEST_CASE("a quadratic energy takes one step to the minimum and one to see it") {
  VectorXd x = VectorXd::Zero(3), b(3);
  b << 1, -2, 5;
  const NewtonReport report = minimise_sum([](double v) { return 4 * v; }, [](double) { return 4.0; }, b, x);
  CHECK(report.usable());
  CHECK(report.steps <= 2);
  for (int i = 0; i < 3; ++i) CHECK(x[i] == near(b[i] / 4, 1e-14));
}

TEST_CASE("a steep saturation law is solved from both sides, where plain Newton steps run away") {
  // h = x + 1e4 (|x| - 1)^3 beyond |x| = 1: soft, then very stiff, as steel is.
  const auto h = [](double v) {
    const double over = std::max(0.0, std::abs(v) - 1);
    return v + std::copysign(1e4 * over * over * over, v);
  };
  const auto slope = [](double v) {
    const double over = std::max(0.0, std::abs(v) - 1);
    return 1 + 3e4 * over * over;
  };
  for (const double load : {1e-6, 0.5, 2.0, 1e3, 1e7, -1e7})
    for (const double start : {0.0, 50.0, -50.0}) {
      VectorXd x = VectorXd::Constant(1, start);
      const NewtonReport report = minimise_sum(h, slope, VectorXd::Constant(1, load), x);
      INFO("load " << load << " from " << start << ": " << report.steps << " steps");
      CHECK(report.usable());
      CHECK(h(x[0]) == near(load, 1e-9));
    }
}

TEST_CASE("near the solution a tangent serves several steps, and the solution is as sharp") {
  const auto cubic = [](double v) { return v + v * v * v; };
  const auto slope = [](double v) { return 1 + 3 * v * v; };
  int factorisations = 0;
  VectorXd x = VectorXd::Constant(1, 1.0 + 1e-3);  // 1 + 1^3 = 2
  const NewtonReport report = minimise_sum(cubic, slope, VectorXd::Constant(1, 2.0), x, {}, &factorisations);
  CHECK(report.usable());
  CHECK(factorisations == 1);  // the tangent changes by 1.5 % over the way: each step leaves less than that
  CHECK(report.steps > 2);
  CHECK(x[0] == near(1.0, 4e-12));  // left_below is counted in the norm of the energy, which is 4 x^2 here
}

TEST_CASE("how it ended is said: out of steps, no positive tangent, nothing that descends") {
  VectorXd x = VectorXd::Zero(1);
  NewtonOptions few;
  few.max_steps = 1;
  const auto cubic = [](double v) { return v * v * v + 1e-3 * v; };
  const auto cubic_slope = [](double v) { return 3 * v * v + 1e-3; };
  CHECK(minimise_sum(cubic, cubic_slope, VectorXd::Constant(1, 5), x, few).ending ==
        NewtonEnding::steps_used_up);

  x.setZero();
  CHECK(minimise_sum(
            cubic, [](double) { return -1.0; }, VectorXd::Constant(1, 5), x)
            .ending == NewtonEnding::tangent_not_positive);

  x.setZero();
  const auto broken = [](double v) { return v == 0 ? 0.0 : std::numeric_limits<double>::quiet_NaN(); };
  CHECK(minimise_sum(
            broken, [](double) { return 1.0; }, VectorXd::Constant(1, 5), x)
            .ending == NewtonEnding::no_descent);
}
