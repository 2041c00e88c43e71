// SPDX-License-Identifier: GPL-3.0-or-later
#include "solver/motion/stroke.hpp"

#include <Eigen/QR>
#include <cmath>
#include <functional>
#include <initializer_list>
#include <stdexcept>

#include "materials/constants.hpp"
#include "solver/motion/fit_coenergy.hpp"
#include "tests/near.hpp"

namespace coilpull {
namespace {

/// W' from rows every mm of -10 to 10 mm and every A of -10 to 10 A, with bars of 1e-6.
CoenergyFunction fitted(const std::function<CoenergyPoint(double, double)>& device) {
  std::vector<CoenergyRow> rows;
  for (int k = -10; k <= 10; ++k)
    for (int i = -10; i <= 10; ++i) {
      const CoenergyPoint at = device(1e-3 * k, i);
      rows.push_back(
          {1e-3 * k, static_cast<double>(i), {at.force_N, 1e-6}, {at.linkage_Wb, 1e-6}, at.coenergy_J});
    }
  return fit_coenergy(rows).function;
}

constexpr double L = 5e-3, pull = 2.0;

/// Coefficients of x^power on an axis, to rounding: a spline of degree 5 holds it exactly.
Eigen::VectorXd power_on(const SplineAxis& axis, int power) {
  const Eigen::Index n = axis.functions();
  Eigen::MatrixXd values = Eigen::MatrixXd::Zero(4 * n, n);
  Eigen::VectorXd asked(4 * n);
  for (Eigen::Index k = 0; k < 4 * n; ++k) {
    const double x =
        axis.from() + (axis.to() - axis.from()) * static_cast<double>(k) / static_cast<double>(4 * n - 1);
    const SplineAxis::Basis basis = axis.at(x);
    values.block<1, SplineAxis::degree + 1>(k, basis.first) = basis.derivative.row(0).matrix();
    asked(k) = std::pow(x, power);
  }
  return values.householderQr().solve(asked);
}

/// Inductance L wherever it stands, and a force that no current changes: W' = L i^2/2 + pull z.
CoenergyFunction coil() {
  const SplineAxis z({-10e-3, 0, 10e-3}), i({-10, -5, 0, 5, 10});
  return {z, i,
          pull * power_on(z, 1) * power_on(i, 0).transpose() +
              L / 2 * power_on(z, 0) * power_on(i, 2).transpose()};
}

/// A plunger drawn to the middle that saturates.
CoenergyFunction plunger() {
  return fitted([](double z, double i) {
    const double s = z / 6e-3, g = std::exp(-s * s), full = 4;
    const double w = full * full * std::log(std::cosh(i / full)), flux = full * std::tanh(i / full);
    return CoenergyPoint{2e-3 * w * (1 + g), 2e-3 * w * g * -2 * s / 6e-3, 2e-3 * flux * (1 + g), 0, 0, 0};
  });
}

StrokeSetup held(Drive drive, double ohm) {
  StrokeSetup setup{{0.01}, drive, {ohm}};
  setup.mover.held = true;
  return setup;
}

}  // namespace

TEST_CASE("stroke: the current of a coil at a supply rises as 1 - exp(-t R/L)") {
  const double ohm = 2, volt = 6;
  const StrokeRun run = simulate_stroke(coil(), held({volt, {}, 0.5}, ohm - 0.5), {}, {8e-3});
  REQUIRE(run.end == StrokeEnd::time_over);
  for (const StrokePoint& p : run.points)
    CHECK(std::abs(p.current_A - volt / ohm * (1 - std::exp(-p.state.time_s * ohm / L))) < 1e-8 * volt / ohm);
  CHECK_FALSE(run.left_table);
}

TEST_CASE("stroke: a capacitor discharges through the coil as a damped oscillation") {
  const double ohm = 1, farad = 100e-6, volt = 40;
  StrokeState start;
  start.capacitor_V = volt;
  const StrokeRun run = simulate_stroke(coil(), held({0, farad, 0}, ohm), start, {10e-3});
  const double decay = ohm / (2 * L), omega = std::sqrt(1 / (L * farad) - decay * decay);
  REQUIRE(run.end == StrokeEnd::time_over);
  for (const StrokePoint& p : run.points) {
    const double t = p.state.time_s;
    const double expected = volt / (omega * L) * std::exp(-decay * t) * std::sin(omega * t);
    CHECK(std::abs(p.current_A - expected) < 1e-8 * volt / (omega * L));
  }
  CHECK(std::abs(run.energy.gap()) < 1e-8 * farad * volt * volt / 2);
}

TEST_CASE("stroke: a constant force moves a mass by F t^2 / 2m, and the stop is met on time") {
  StrokeSetup setup{{0.05, 1.0}, {}, {1}};
  setup.stop_high = 8e-3;
  StrokeState start;
  start.displacement = -5e-3;
  const StrokeRun run = simulate_stroke(coil(), setup, start, {1});
  const double acceleration = (pull + 1.0) / 0.05;
  CHECK(run.end == StrokeEnd::stop_high);
  CHECK(run.points.back().state.time_s == near(std::sqrt(2 * 13e-3 / acceleration), 1e-8));
  CHECK(run.points.back().state.speed_m_per_s == near(std::sqrt(2 * 13e-3 * acceleration), 1e-8));
  CHECK(run.energy.work == near(pull * 13e-3, 1e-8));
}

TEST_CASE("stroke: a mass on a spring swings about where the spring holds the pull") {
  StrokeSetup setup{{0.02, 0, 1000, 0}, {}, {1}};
  const double omega = std::sqrt(1000 / 0.02), middle = pull / 1000;
  StrokeState start;
  start.displacement = 5e-3;
  const StrokeRun run = simulate_stroke(coil(), setup, start, {5 * 2 * pi / omega});
  for (const StrokePoint& p : run.points)
    CHECK(std::abs(p.state.displacement - middle - 3e-3 * std::cos(omega * p.state.time_s)) <
          1e-8 * 3e-3 * 5 * 6.3);
}

TEST_CASE("stroke: supply, heat, work and field add up while a saturating plunger is drawn in and through") {
  StrokeSetup setup{{0.02, 0, 50, 0, 0.1}, {12, {}, 0.2}, {1.0, 0.00393, 0.5, 0.01, 20}};
  StrokeState start;
  start.displacement = -8e-3;
  const CoenergyFunction function = plunger();
  const StrokeRun run = simulate_stroke(function, setup, start, {60e-3});
  REQUIRE(run.energy.delivered > 0.1);
  CHECK(run.energy.work != 0);
  CHECK(std::abs(run.energy.gap()) < 1e-6 * run.energy.delivered);
  // the winding keeps its heat but for what little cools off: C (T - 20) is at most what it made
  const double kept = 0.5 * (run.points.back().state.winding_degC - 20);
  CHECK(kept > 0);
  CHECK(kept < run.energy.heat);
  // motion and field agree: m v^2/2 and the spring hold what the work left after the damping
  const StrokeState& last = run.points.back().state;
  const double kinetic = 0.02 * last.speed_m_per_s * last.speed_m_per_s / 2;
  const double spring = 25 * (last.displacement * last.displacement - 64e-6);
  CHECK(kinetic + spring < run.energy.work);
}

TEST_CASE("stroke: a run ends where it is asked to, on the crossing") {
  StrokeOptions options{8e-3};
  options.ends_when = {[](const StrokePoint& p) { return p.current_A - 1.5; }};
  const StrokeRun run = simulate_stroke(coil(), held({6}, 2), {}, options);
  CHECK(run.end == StrokeEnd::asked);
  CHECK(run.points.back().state.time_s == near(L / 2 * std::log(2), 1e-8));  // half of 3 A
}

TEST_CASE("stroke: a mover that rests on a stop and is pushed against it stays there") {
  StrokeState start;
  start.displacement = 10e-3;
  const StrokeRun run = simulate_stroke(coil(), {{0.05}, {}, {1}}, start, {1});  // the pull is along +z
  CHECK(run.end == StrokeEnd::stop_high);
  CHECK(run.points.back().state.time_s == 0);
}

TEST_CASE("stroke: a current beyond the table is told, and what has no meaning is refused") {
  CHECK(simulate_stroke(coil(), held({60}, 2), {}, {8e-3}).left_table);
  CHECK_THROWS_AS(simulate_stroke(coil(), {{0}, {}, {1}}, {}, {1}), std::invalid_argument);
  StrokeState outside;
  outside.displacement = 1;
  CHECK_THROWS_AS(simulate_stroke(coil(), {{1}, {}, {1}}, outside, {1}), std::invalid_argument);
}

}  // namespace coilpull
