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
NewtonReport minimise_sum(H h, Slope slope, const VectorXd& b, VectorXd& x,
                          const NewtonOptions& options = {}) {
  VectorXd at;
  const ConvexEnergy energy{[&](const VectorXd& point, VectorXd& g) {
                              at = point;
                              g = point.unaryExpr(h) - b;
                              return std::abs(point.dot(point.unaryExpr(h)));
                            },
                            [&](const VectorXd& g, VectorXd& d) {
                              const VectorXd diagonal = at.unaryExpr(slope);
                              if (!(diagonal.minCoeff() > 0)) return false;
                              d = -g.cwiseQuotient(diagonal);
                              return true;
                            }};
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
