// SPDX-License-Identifier: GPL-3.0-or-later
// Rows of equal stages, and what they share.
#include <cmath>
#include <initializer_list>
#include <random>
#include <stdexcept>

#include "solver/motion/stage_field.hpp"
#include "solver/motion/switched_stroke.hpp"
#include "tests/near.hpp"
#include "tests/solver/stroke_devices.hpp"

namespace coilpull {
namespace {

/// n plungers' coils at a pitch, each on from 9 mm before its middle to 1 mm before it, from one bank.
SwitchedSetup row_of(int n, double pitch) {
  SwitchedSetup setup{{{0.02}, 0.05}, {40, 4e-3, {}, 0.2, 0.7}, {1.0, 0.00393, 5}};
  setup.feed.bank_ohm = 0.05;
  setup.stages.clear();
  for (int k = 0; k < n; ++k)
    setup.stages.push_back(
        {Switching::off, {{Switching::on, {}, -9e-3}, {Switching::off, {}, -1e-3}}, k * pitch});
  setup.stages.front().first = Switching::on;
  setup.stages.front().orders.erase(setup.stages.front().orders.begin());
  return setup;
}

}  // namespace

TEST_CASE("row stroke: beyond its table the pull of a stage goes on with value and slope, and fades") {
  const CoenergyFunction function = plunger();
  const double edge = function.displacement().to(), step = 1e-7;
  const auto force = [&](double z) { return stage_field(function, z, 5).force_N; };
  const CoenergyPoint inside = function.at(edge, 5);
  CHECK(force(edge + step) == near(inside.force_N + inside.force_slope * step, 1e-6));
  // force is the slope of W' beyond the edge too: a central difference of step^2
  const double z = edge + 0.4e-3, h = 1e-6;
  const double slope =
      (stage_field(function, z + h, 5).coenergy_J - stage_field(function, z - h, 5).coenergy_J) / (2 * h);
  CHECK(slope == near(force(z), 1e-5));
  CHECK(std::abs(force(edge + 10e-3)) < 1e-12 * std::abs(inside.force_N));
}

TEST_CASE("row stroke: two stages far apart do each what one does alone") {
  const CoenergyFunction function = plunger();
  SwitchedSetup one = row_of(1, 0), two = row_of(2, 60e-3);
  for (SwitchedSetup* setup : {&one, &two}) setup->travel.stop_high = 9e-3;
  StrokeOptions options{1};
  const SwitchedRun alone =
      simulate_switched_stroke(function, one, start_without_current(function, one, -9e-3), options);
  const SwitchedRun beside =
      simulate_switched_stroke(function, two, start_without_current(function, two, -9e-3), options);
  REQUIRE(alone.end == SwitchedEnd::left_high);
  CHECK(beside.points.back().state.speed_m_per_s == near(alone.points.back().state.speed_m_per_s, 1e-8));
  CHECK(beside.points.back().state.time_s == near(alone.points.back().state.time_s, 1e-8));
}

TEST_CASE("row stroke: a row of 20 stages from one bank keeps its energy and gains speed in each") {
  const CoenergyFunction function = plunger();
  SwitchedSetup setup = row_of(20, 15e-3);
  setup.feed.capacitor_F = 40e-3;
  StrokeOptions options{1};
  options.relative_error = 1e-9;
  const SwitchedRun run =
      simulate_switched_stroke(function, setup, start_without_current(function, setup, -9e-3), options);
  REQUIRE(run.end == SwitchedEnd::left_high);
  CHECK(std::abs(run.energy.gap()) < 1e-6 * run.energy.delivered);
  double sum = 0;
  for (const StageEnergy& stage : run.energy.stages) {
    CHECK(stage.delivered > 0);
    sum += stage.delivered;
  }
  CHECK(sum == near(run.energy.delivered, 1e-12));
  const double left = run.points.back().state.bank_V;
  // the bank's own account: what it lost is what it delivered
  CHECK(run.energy.delivered == near(0.5 * 40e-3 * (40 * 40 - left * left), 1e-7));
}

TEST_CASE("row stroke: two coils at once share the resistance of their bank") {
  // equal currents: each sees R + 2 Rb, i = U / (R + ohm + 2 Rb) once the bank is large and time has passed
  SwitchedSetup setup{{{0.05}}, {6, 1e6, {}, 0.5, 0.7}, {1.5}};
  setup.travel.mover.held = true;
  setup.feed.bank_ohm = 0.5;
  setup.stages = {{}, {}};
  const SwitchedRun run =
      simulate_switched_stroke(coil(), setup, start_without_current(coil(), setup, 0), {40e-3});
  for (const WindingPoint& w : run.points.back().windings)
    CHECK(w.current_A == near(2 * (1 - std::exp(-40e-3 * 3 / L)), 1e-7));
}

TEST_CASE("row stroke: energy return brings back what the field held, and the current dies on time") {
  // against U + drop behind R: t = L/R ln(1 + R i / (U + drop))
  SwitchedSetup setup{{{0.05}}, {6, {}, {}, 0.5, 0.7}, {1.5}};
  setup.travel.mover.held = true;
  setup.feed.returns = true;
  setup.stages[0].orders = {{Switching::off, 4e-3}};
  const SwitchedRun run =
      simulate_switched_stroke(coil(), setup, start_without_current(coil(), setup, 0), {40e-3});
  const double i = 3 * (1 - std::exp(-4e-3 * 2 / L)), dies = 4e-3 + L / 1.5 * std::log(1 + 1.5 * i / 6.7);
  double died = 0;
  for (const StrokeEventAt& e : run.events)
    if (e.event == StrokeEvent::current_died) died = e.time_s;
  CHECK(std::abs(died - dies) < 1e-9);
  CHECK(std::abs(run.energy.gap()) < 1e-8 * run.energy.heat);
}

TEST_CASE(
    "row stroke: a level switches when it is reached, after the delay, and a time counts from the order before") {
  SwitchedSetup setup{{{0.05}}, {6, {}, {}, 0.5, 0.7}, {1.5}};
  setup.stages[0].first = Switching::off;
  SwitchOrder on{Switching::on};
  on.level = [](double z, double) { return z + 2e-3; };
  on.delay_s = 0.5e-3;
  SwitchOrder off{Switching::off};
  off.after_s = 1e-3;
  setup.stages[0].orders = {on, off};
  const SwitchedRun run =
      simulate_switched_stroke(coil(), setup, start_without_current(coil(), setup, -8e-3), {1});
  const double passes = std::sqrt(2 * 6e-3 * 0.05 / pull);
  REQUIRE(run.events.size() >= 2);
  CHECK(std::abs(run.events[0].time_s - passes - 0.5e-3) < 1e-9);
  CHECK(std::abs(run.events[1].time_s - passes - 1.5e-3) < 1e-9);
}

TEST_CASE("row stroke: a start that forgets a winding is refused") {
  SwitchedSetup setup = row_of(2, 20e-3);
  CHECK_THROWS_AS(simulate_switched_stroke(plunger(), setup, {}, {1}), std::invalid_argument);
}

}  // namespace coilpull
