// SPDX-License-Identifier: GPL-3.0-or-later
#include "solver/motion/stroke.hpp"

#include <cmath>
#include <initializer_list>
#include <stdexcept>

#include "materials/constants.hpp"
#include "tests/near.hpp"
#include "tests/solver/stroke_devices.hpp"

namespace coilpull {
namespace {

StrokeSetup held(Drive drive, double ohm) {
  StrokeSetup setup{{0.01}, {drive}, {ohm}};
  setup.mover.held = true;
  return setup;
}

}  // namespace

TEST_CASE("stroke: the current of a coil at a supply rises as 1 - exp(-t R/L)") {
  const double ohm = 2, volt = 6;
  const StrokeRun run = simulate_stroke(coil(), held({volt, {}, 0.5}, ohm - 0.5), {}, {8e-3});
  REQUIRE(run.end == StrokeEnd::time_over);
  for (const StrokePoint& p : run.points)
    CHECK(std::abs(p.windings[0].current_A - volt / ohm * (1 - std::exp(-p.state.time_s * ohm / L))) <
          1e-8 * volt / ohm);
  CHECK_FALSE(run.left_table);
}

TEST_CASE("stroke: a capacitor discharges through the coil as a damped oscillation") {
  const double ohm = 1, farad = 100e-6, volt = 40;
  StrokeState start;
  start.bank_V = volt;
  StrokeSetup setup = held({0, true, 0}, ohm);
  setup.bank = Bank{farad};
  const StrokeRun run = simulate_stroke(coil(), setup, start, {10e-3});
  const double decay = ohm / (2 * L), omega = std::sqrt(1 / (L * farad) - decay * decay);
  REQUIRE(run.end == StrokeEnd::time_over);
  for (const StrokePoint& p : run.points) {
    const double t = p.state.time_s;
    const double expected = volt / (omega * L) * std::exp(-decay * t) * std::sin(omega * t);
    CHECK(std::abs(p.windings[0].current_A - expected) < 1e-8 * volt / (omega * L));
  }
  CHECK(std::abs(run.energy.gap()) < 1e-8 * farad * volt * volt / 2);
}

TEST_CASE("stroke: a constant force moves a mass by F t^2 / 2m, and the stop is met on time") {
  StrokeSetup setup{{0.05, 1.0}, {{}}, {1}};
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
  StrokeSetup setup{{0.02, 0, 1000, 0}, {{}}, {1}};
  const double omega = std::sqrt(1000 / 0.02), middle = pull / 1000;
  StrokeState start;
  start.displacement = 5e-3;
  const StrokeRun run = simulate_stroke(coil(), setup, start, {5 * 2 * pi / omega});
  for (const StrokePoint& p : run.points)
    CHECK(std::abs(p.state.displacement - middle - 3e-3 * std::cos(omega * p.state.time_s)) <
          1e-8 * 3e-3 * 5 * 6.3);
}

TEST_CASE("stroke: supply, heat, work and field add up while a saturating plunger is drawn in and through") {
  StrokeSetup setup{{0.02, 0, 50, 0, 0.1}, {{12, {}, 0.2}}, {1.0, 0.00393, 0.5, 0.01, 20}};
  StrokeState start;
  start.displacement = -8e-3;
  const CoenergyFunction function = plunger();
  const StrokeRun run = simulate_stroke(function, setup, start, {60e-3});
  REQUIRE(run.energy.delivered > 0.1);
  CHECK(run.energy.work != 0);
  CHECK(std::abs(run.energy.gap()) < 1e-6 * run.energy.delivered);
  // the winding keeps its heat but for what little cools off: C (T - 20) is at most what it made
  const double kept = 0.5 * (run.points.back().state.windings[0].degC - 20);
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
  options.ends_when = {[](const StrokePoint& p) { return p.windings[0].current_A - 1.5; }};
  const StrokeRun run = simulate_stroke(coil(), held({6}, 2), {}, options);
  CHECK(run.end == StrokeEnd::asked);
  CHECK(run.points.back().state.time_s == near(L / 2 * std::log(2), 1e-8));  // half of 3 A
}

TEST_CASE(
    "stroke: a place that is passed and left again within a nanometre of the turning point is not stepped "
    "over") {
  // Thrown against the pull: z = v t - a t^2/2 turns at v^2/2a, at t = v/a; depth d below the turning point
  // is passed sqrt(2d/a) before and after. Beyond rounding of z (1e-18 m of 1e-2 m) the time is known to
  // d(z)/sqrt(2 a d).
  const double mass = 0.02, speed = -0.9, slowing = pull / mass;
  StrokeSetup setup{{mass}, {{0, {}, 0.5}}, {1.5}};
  StrokeState start;
  start.speed_m_per_s = speed;
  for (const double depth : {1e-6, 1e-9, 1e-11})
    for (const double until : {14e-3, 17e-3, 23.3e-3}) {
      CAPTURE(depth);
      const double turning = -speed * speed / (2 * slowing);
      StrokeOptions options{until};
      options.ends_when = {[=](const StrokePoint& p) { return p.state.displacement - (turning + depth); }};
      const StrokeRun run = simulate_stroke(coil(), setup, start, options);
      REQUIRE(run.end == StrokeEnd::asked);
      CHECK(std::abs(run.points.back().state.time_s - (-speed / slowing - std::sqrt(2 * depth / slowing))) <
            1e-9);
    }
}

TEST_CASE("stroke: a mover that rests on a stop and is pushed against it stays there") {
  StrokeState start;
  start.displacement = 10e-3;
  const StrokeRun run = simulate_stroke(coil(), {{0.05}, {{}}, {1}}, start, {1});  // the pull is along +z
  CHECK(run.end == StrokeEnd::stop_high);
  CHECK(run.points.back().state.time_s == 0);
}

TEST_CASE("stroke: a current beyond the table is told, and what has no meaning is refused") {
  CHECK(simulate_stroke(coil(), held({60}, 2), {}, {8e-3}).left_table);
  CHECK_THROWS_AS(simulate_stroke(coil(), {{0}, {{}}, {1}}, {}, {1}), std::invalid_argument);
  StrokeState outside;
  outside.displacement = 1;
  CHECK_THROWS_AS(simulate_stroke(coil(), {{1}, {{}}, {1}}, outside, {1}), std::invalid_argument);
}

}  // namespace coilpull
