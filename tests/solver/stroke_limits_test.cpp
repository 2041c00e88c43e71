// SPDX-License-Identifier: GPL-3.0-or-later
// Where a stroke stops making sense, or its feed gives out.
#include <cmath>
#include <stdexcept>

#include "solver/motion/switched_stroke.hpp"
#include "tests/near.hpp"
#include "tests/solver/stroke_devices.hpp"

namespace coilpull {
namespace {

SwitchedSetup held_still(Feed feed) {
  SwitchedSetup setup{{{0.05}}, feed, {1.5}};
  setup.travel.mover.held = true;
  return setup;
}

/// An inductance of 0: no current gives the linkage that is asked for.
CoenergyFunction nothing() {
  const SplineAxis axis({-1, 0, 1});
  return {axis, axis, Eigen::MatrixXd::Zero(axis.functions(), axis.functions())};
}

}  // namespace

TEST_CASE("switched stroke: a limit is left when the winding is too hot for the feed to hold it") {
  // At a held current R = R_20 exp(i^2 alpha R_20 t / C), from 20 degC on; 6 V hold 2 A through 0.5 + 2.5
  // ohm.
  SwitchedSetup setup = held_still({6, {}, 2.0, 0.5});
  setup.winding.heat_capacity_J_per_K = 1e-3;
  StrokeState start;
  start.windings[0].linkage_Wb = 2 * L;
  const SwitchedRun run = simulate_switched_stroke(coil(), setup, start, {40e-3});
  const double expected = 1e-3 / (4 * 0.00393 * 1.5) * std::log(2.5 / 1.5);
  CHECK(std::abs(time_of(run, StrokeEvent::limit_left) - expected) < 1e-9);
  CHECK(run.points.back().windings[0].current_A < 2);
}

TEST_CASE(
    "switched stroke: a rebound that turns a magnet's voltage against the feed lets a limited current go") {
  // W' = c z i + L i^2/2 at a speed that nothing changes: 6 V hold 2 A through 2 ohm against -c v, and
  // against +c v drive 0.5 + 1.5 exp(-t R/L) A.
  const double c = 5, speed = 1, ohm = 2;
  const CoenergyFunction magnet = magnet_in_coil(c);
  SwitchedSetup setup{{{1e7}, 0, {}, {}, 1.0}, {6, {}, 2.0, 0.5}, {1.5}};
  StrokeState start;
  start.displacement = -5e-3;
  start.speed_m_per_s = -speed;
  start.windings[0].linkage_Wb = c * -5e-3 + 2 * L * (1 - 1e-6);  // the limit is met at once
  const SwitchedRun run = simulate_switched_stroke(magnet, setup, start, {9e-3});
  CHECK(std::abs(time_of(run, StrokeEvent::limit_reached)) < 2e-9);
  CHECK(std::abs(time_of(run, StrokeEvent::hit_low) - 5e-3) < 1e-9);
  CHECK(std::abs(time_of(run, StrokeEvent::limit_left) - 5e-3) < 1e-9);
  CHECK(run.points.back().windings[0].current_A == near(0.5 + 1.5 * std::exp(-4e-3 * ohm / L), 1e-7));
}

TEST_CASE("switched stroke: an order whose sensor is past its threshold at the start acts after its delay") {
  SwitchedSetup setup = held_still({6, {}, {}, 0.5, 0.7});
  SwitchOrder order{Switching::off};
  order.delay_s = 3e-3;
  order.level = [](double displacement, double) { return displacement - 1e-3; };
  setup.stages[0].orders = {order};
  StrokeState start;
  start.displacement = 2e-3;
  const SwitchedRun run = simulate_switched_stroke(coil(), setup, start, {10e-3});
  CHECK(std::abs(time_of(run, StrokeEvent::switched_off) - 3e-3) < 1e-12);
}

TEST_CASE("a stroke in which no current has the linkage of the winding ends there and says so") {
  const StrokeRun run = simulate_stroke(nothing(), {{0.05}, {{6, {}, 0.5}}, {1.5}}, {}, {1e-3});
  CHECK(run.end == StrokeEnd::no_current);
  const SwitchedRun switched = simulate_switched_stroke(nothing(), held_still({6, {}, {}, 0.5}), {}, {1e-3});
  CHECK(switched.end == SwitchedEnd::no_current);
}

TEST_CASE("switched stroke: a mover that rebounds for ever is given up after many events") {
  SwitchedSetup setup{{{0.05}, 0, {}, 10e-3, 1.0}, {6, {}, {}, 0.5}, {1.5}};
  setup.stages[0].first = Switching::off;
  StrokeState start;
  start.displacement = 10e-3 - 1e-7;
  const SwitchedRun run = simulate_switched_stroke(coil(), setup, start, {1e6});
  CHECK(run.end == SwitchedEnd::too_many_events);
}

TEST_CASE("stroke: a winding without heat capacity and a start without windings are refused") {
  StrokeSetup setup{{0.05}, {{}}, {1.5}};
  setup.winding.heat_capacity_J_per_K = 0;
  CHECK_THROWS_AS(simulate_stroke(coil(), setup, {}, {1e-3}), std::invalid_argument);
  StrokeState bare;
  bare.windings.clear();
  CHECK_THROWS_AS(simulate_stroke(coil(), {{0.05}, {{}}, {1.5}}, bare, {1e-3}), std::invalid_argument);
}

}  // namespace coilpull
