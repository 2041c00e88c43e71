// SPDX-License-Identifier: GPL-3.0-or-later
#include "solver/motion/switched_stroke.hpp"

#include <algorithm>
#include <cmath>
#include <initializer_list>
#include <random>
#include <stdexcept>
#include <vector>

#include "materials/constants.hpp"
#include "tests/near.hpp"
#include "tests/solver/stroke_devices.hpp"

namespace coilpull {
namespace {

// Tolerances: steps are held to 1e-10 of every entry, of which some hundred add up; times of events to 1e-9
// s.
constexpr double event_s = 1e-9;

/// A coil that pulls with `pull` along +z and has the inductance L wherever the mover stands.
SwitchedSetup setup_of(Travel travel, Feed feed = {6, {}, {}, 0.5}) { return {travel, feed, {1.5}}; }

SwitchedSetup still(Feed feed) {
  SwitchedSetup setup = setup_of({{0.05}}, feed);
  setup.travel.mover.held = true;
  return setup;
}

StrokeState at(double displacement, double speed) {
  StrokeState state;
  state.displacement = displacement;
  state.speed_m_per_s = speed;
  return state;
}

}  // namespace

TEST_CASE("switched stroke: a diode takes the current over, and it dies when L/R ln(1 + R i/U) has passed") {
  const double i0 = 3 * (1 - std::exp(-4e-3 * 2 / L));
  SwitchedSetup setup = still({6, {}, {}, 0.5, 0.7});
  setup.stages[0].orders = {{Switching::off, 4e-3}};
  const SwitchedRun run = simulate_switched_stroke(coil(), setup, {}, {40e-3});
  CHECK(std::abs(time_of(run, StrokeEvent::switched_off) - 4e-3) < event_s);
  const double dies = 4e-3 + L / 1.5 * std::log(1 + 1.5 * i0 / 0.7);
  // let go 1 nA after 0, which takes 1e-9 L / 0.7 V more
  CHECK(std::abs(time_of(run, StrokeEvent::current_died) - dies) < event_s);
  CHECK(run.points.back().windings[0].current_A == 0);
  CHECK(std::abs(run.energy.gap()) < 1e-6 * run.energy.delivered);
}

TEST_CASE("switched stroke: a reversed supply drives the current through 0 towards the other sign") {
  SwitchedSetup setup = still({6, {}, {}, 0.5, 0.7});
  setup.stages[0].orders = {{Switching::reversed, 4e-3}};
  const SwitchedRun run = simulate_switched_stroke(coil(), setup, {}, {12e-3});
  const double i0 = 3 * (1 - std::exp(-4e-3 * 2 / L));
  CHECK(run.points.back().windings[0].current_A == near(-3 + (i0 + 3) * std::exp(-8e-3 * 2 / L), 1e-8));
}

TEST_CASE("switched stroke: a stroke that begins reversed drives the current below 0") {
  SwitchedSetup setup = still({6, {}, {}, 0.5, 0.7});
  setup.stages[0].first = Switching::reversed;
  const SwitchedRun run = simulate_switched_stroke(coil(), setup, {}, {4e-3});
  CHECK(run.points.back().windings[0].current_A == near(-3 * (1 - std::exp(-4e-3 * 2 / L)), 1e-8));
}

TEST_CASE("switched stroke: a current limit is met when the current has risen to it, and holds it") {
  const SwitchedRun run = simulate_switched_stroke(coil(), still({6, {}, 2.0, 0.5}), {}, {20e-3});
  CHECK(std::abs(time_of(run, StrokeEvent::limit_reached) - L / 2 * std::log(3)) < event_s);  // 2 of 3 A
  CHECK(run.points.back().windings[0].current_A == near(2, 1e-12));
  CHECK(run.points.back().windings[0].voltage_V == near(3, 1e-12));  // 2 A through the 1.5 ohm of the winding
}

TEST_CASE("switched stroke: a capacitor is cut off when it is empty, and the diode takes over its current") {
  const double farad = 100e-6, volt = 40, ohm = 1.5 + 0.1;
  StrokeState start;
  start.bank_V = volt;
  const SwitchedRun run =
      simulate_switched_stroke(coil(), still({volt, farad, {}, 0.1, 0.7}), start, {40e-3});
  // u = volt e^(-d t) (cos w t + d/w sin w t) is 0 first where tan w t = -w/d
  const double d = ohm / (2 * L), w = std::sqrt(1 / (L * farad) - d * d);
  CHECK(std::abs(time_of(run, StrokeEvent::capacitor_empty) - (pi - std::atan(w / d)) / w) < event_s);
  CHECK(std::abs(run.points.back().state.bank_V) < 1e-6 * volt);
  CHECK(run.energy.delivered == near(farad * volt * volt / 2, 1e-8));
  CHECK(std::abs(run.energy.gap()) < 1e-6 * run.energy.delivered);
}

TEST_CASE("switched stroke: dry friction stops a sliding mass after m v / (friction - pull), and it sticks") {
  const SwitchedRun run = simulate_switched_stroke(coil(), setup_of({{0.05}, 3.0}), at(-5e-3, 0.5), {0.1});
  CHECK(std::abs(time_of(run, StrokeEvent::stuck) - 0.05 * 0.5 / (3.0 - pull)) < event_s);
  CHECK(run.points.back().state.displacement == near(-5e-3 + 0.05 * 0.25 / (2 * (3.0 - pull)), 1e-8));
  CHECK(run.points.back().state.speed_m_per_s == 0);
  CHECK(std::abs(run.energy.gap()) < 1e-6 * run.energy.friction);
}

TEST_CASE("switched stroke: on a spring dry friction takes 4 friction/rate from every whole swing") {
  // half swings about (pull -+ friction)/rate, each of pi sqrt(m/rate): Den Hartog, Mechanical Vibrations,
  // from memory; it follows from the straight pieces by hand
  const double rate = 1000, friction = 0.5, mass = 0.02, middle = pull / rate;
  const SwitchedRun run = simulate_switched_stroke(coil(), setup_of({{mass, 0, rate, 0}, friction}),
                                                   at(middle + 3.2e-3, 0), {0.2});
  const double half = pi * std::sqrt(mass / rate);
  std::vector<double> turns;
  for (const StrokeEventAt& e : run.events)
    if (e.event == StrokeEvent::turned_round || e.event == StrokeEvent::stuck) turns.push_back(e.time_s);
  REQUIRE(turns.size() == 3);  // 3.2, -2.2, 1.2, -0.2 mm: within 0.5 mm it sticks
  for (std::size_t k = 0; k < 3; ++k) CHECK(std::abs(turns[k] - static_cast<double>(k + 1) * half) < event_s);
  CHECK(run.points.back().state.displacement == near(middle - 0.2e-3, 1e-7));
}

TEST_CASE(
    "switched stroke: a mass that falls on a stop bounces by e of its speed each time and comes to rest") {
  const double mass = 0.05, a = pull / mass, e = 0.5, drop = 4e-3;
  const SwitchedRun run =
      simulate_switched_stroke(coil(), setup_of({{mass}, 0, {}, 10e-3, e}), at(10e-3 - drop, 0), {0.1});
  std::vector<double> hits;
  for (const StrokeEventAt& h : run.events)
    if (h.event == StrokeEvent::hit_high) hits.push_back(h.time_s);
  REQUIRE(hits.size() > 3);
  double expected = std::sqrt(2 * drop / a), speed = std::sqrt(2 * drop * a);
  for (std::size_t k = 0; k < 4; ++k) {
    CHECK(std::abs(hits[k] - expected) < event_s);
    speed *= e;
    expected += 2 * speed / a;
  }
  CHECK(run.points.back().state.displacement == near(10e-3, 1e-12));
  CHECK(run.energy.impacts == near(pull * drop, 1e-7));  // all that the pull gave
}

TEST_CASE("switched stroke: an order at a displacement acts its delay after the mover has passed") {
  SwitchedSetup setup = setup_of({{0.05}}, {6, {}, {}, 0.5, 0.7});
  setup.stages[0].orders = {{Switching::off, {}, -2e-3, 0.5e-3}};
  const SwitchedRun run = simulate_switched_stroke(coil(), setup, at(-8e-3, 0), {1});
  CHECK(std::abs(time_of(run, StrokeEvent::switched_off) - std::sqrt(2 * 6e-3 * 0.05 / pull) - 0.5e-3) <
        event_s);
  CHECK(run.end == SwitchedEnd::left_high);
  setup.cut_off_s = 1e-3;  // the safety is earlier
  const SwitchedRun cut = simulate_switched_stroke(coil(), setup, at(-8e-3, 0), {1});
  CHECK(std::abs(time_of(cut, StrokeEvent::switched_off) - 1e-3) < event_s);
}

TEST_CASE("switched stroke: a held current draws a plunger about the middle at sqrt(-F'/m)") {
  // small swings: 10 um of 6 mm change the stiffness by 4e-6, the time by less
  const CoenergyFunction function = plunger();
  const double mass = 0.02, current = 3;
  SwitchedSetup setup = setup_of({{mass}}, {60, {}, current, 0.5, 0.7});
  StrokeState start = at(10e-6, 0);
  start.windings[0].linkage_Wb =
      function.at(10e-6, current * (1 - 1e-6)).linkage_Wb;  // the limit is met at once
  const double omega = std::sqrt(-function.at(0, current).force_slope / mass);
  const SwitchedRun run = simulate_switched_stroke(function, setup, start, {3.2 * pi / omega});
  std::vector<double> turns;
  for (const StrokeEventAt& e : run.events)
    if (e.event == StrokeEvent::turned_round) turns.push_back(e.time_s);
  REQUIRE(turns.size() == 3);
  CHECK(turns[2] - turns[0] == near(2 * pi / omega, 1e-4));
}

TEST_CASE("switched stroke: about the centre of a linear coil a held current swings the mover harmonically") {
  // W' = L i^2/2 - c z^2 i: F = -2 c i z at any amplitude, omega = sqrt(2 c i / m)
  const double c = 40, mass = 0.02, current = 3, from = 4e-3;
  const SplineAxis z({-10e-3, 0, 10e-3}), i({-10, -5, 0, 5, 10});
  const CoenergyFunction linear(
      z, i,
      L / 2 * power_on(z, 0) * power_on(i, 2).transpose() - c * power_on(z, 2) * power_on(i, 1).transpose());
  SwitchedSetup setup = setup_of({{mass}}, {60, {}, current, 0.5, 0.7});
  StrokeState start = at(from, 0);
  start.windings[0].linkage_Wb = linear.at(from, current).linkage_Wb;
  const double omega = std::sqrt(2 * c * current / mass);
  const SwitchedRun run = simulate_switched_stroke(linear, setup, start, {4.2 * pi / omega});
  std::vector<double> turns;
  for (const StrokeEventAt& e : run.events)
    if (e.event == StrokeEvent::turned_round) turns.push_back(e.time_s);
  REQUIRE(turns.size() == 4);
  CHECK(turns[3] - turns[1] == near(2 * pi / omega, 1e-8));
  CHECK(turns[1] == near(2 * pi / omega, 1e-6));  // the current is at its limit within nanoseconds
}

TEST_CASE(
    "switched stroke: when a magnet rebounds its voltage turns round, and the diode carries it at once") {
  // W' = c z i + L i^2/2 at a speed that nothing changes: U = c v against the diode drives
  // (U - drop)/R (1 - exp(-t R/L)) from the rebound on
  const double c = 5, speed = 1, drop = 0.7, ohm = 1.5;
  const CoenergyFunction magnet = magnet_in_coil(c);
  SwitchedSetup setup = setup_of({{1e6}, 0, {}, {}, 1.0}, {6, {}, {}, 0.5, drop});
  setup.stages[0].first = Switching::off;
  StrokeState start = at(5e-3, speed);
  start.windings[0].linkage_Wb = c * 5e-3;  // no current
  const SwitchedRun run = simulate_switched_stroke(magnet, setup, start, {9e-3});
  CHECK(std::abs(time_of(run, StrokeEvent::hit_high) - 5e-3) < event_s);
  CHECK(std::abs(time_of(run, StrokeEvent::taken_over) - 5e-3) < event_s);
  CHECK(run.points.back().windings[0].current_A ==
        near((c * speed - drop) / ohm * (1 - std::exp(-4e-3 * ohm / L)), 1e-7));
}

TEST_CASE("switched stroke: energy adds up over random strokes with every element in them") {
  const CoenergyFunction function = plunger();
  std::mt19937 random(20);
  const auto between = [&](double low, double high) {
    return std::uniform_real_distribution<double>(low, high)(random);
  };
  double worst = 0;
  for (int k = 0; k < 100; ++k) {
    Travel travel{
        {between(0.005, 0.05), between(-0.3, 0.3), between(0, 100), between(-5e-3, 5e-3), between(0, 0.3)},
        between(0, 0.2),
        -9.5e-3,
        9.5e-3,
        between(0, 0.8)};
    Feed feed{between(5, 15), {}, between(2, 8), between(0.1, 0.5), between(0.5, 20), k % 2 == 0};
    if (k % 3 == 0) feed.capacitor_F = between(0.5e-3, 5e-3);
    SwitchedSetup setup{travel, feed, {between(0.5, 2), 0.00393, 5}};
    setup.stages[0].orders = {{Switching::off, {}, between(-6e-3, -1e-3), between(0, 1e-3)},
                              {Switching::reversed, between(20e-3, 30e-3)},
                              {Switching::on, between(30e-3, 40e-3)}};
    setup.cut_off_s = 50e-3;
    StrokeState start = at(between(-9e-3, -6e-3), 0);
    start.bank_V = feed.volt;
    const SwitchedRun run = simulate_switched_stroke(function, setup, start, {60e-3});
    CAPTURE(k);
    CHECK(run.end == SwitchedEnd::time_over);
    CHECK(run.energy.heat > 0);
    CHECK(std::abs(run.energy.gap()) < 1e-6 * run.energy.delivered);
    worst = std::max(worst, std::abs(run.energy.gap()) / run.energy.delivered);
  }
  MESSAGE("of 100 random strokes the energy in differs from what became of it by at most ", worst);
}

TEST_CASE(
    "switched stroke: a mover pressed against its stop stays there to the last digit while orders act") {
  for (int k = 1; k <= 40; ++k) {
    const double stop = 5e-5 * k / 3;
    SwitchedSetup setup = setup_of({{0.05}}, {6, {}, {}, 0.5, 0.7});
    setup.travel.mover.force_N = -1000;
    setup.travel.stop_low = stop;
    setup.stages[0].orders = {{Switching::off, 4e-3}};
    const SwitchedRun run = simulate_switched_stroke(coil(), setup, at(stop, 0), {40e-3});
    CHECK(run.end == SwitchedEnd::time_over);
    CHECK(run.points.back().state.displacement == stop);
  }
}

TEST_CASE("switched stroke: what has no meaning is refused") {
  SwitchedSetup setup = setup_of({{0.05}});
  setup.stages[0].orders = {{Switching::off}};
  CHECK_THROWS_AS(simulate_switched_stroke(coil(), setup, {}, {1}), std::invalid_argument);
  CHECK_THROWS_AS(simulate_switched_stroke(coil(), setup_of({{0.05}, -1}), {}, {1}), std::invalid_argument);
  CHECK_THROWS_AS(simulate_switched_stroke(coil(), setup_of({{0.05}, 0, {}, {}, 2.0}), {}, {1}),
                  std::invalid_argument);
}

TEST_CASE("orders, friction and stops that cannot be are refused before anything moves") {
  const auto refuses = [](auto change) {
    SwitchedSetup setup = still({6, {}, {}, 0.5});
    change(setup);
    CHECK_THROWS_AS(simulate_switched_stroke(coil(), setup, {}, {1e-3}), std::invalid_argument);
  };
  refuses([](SwitchedSetup& setup) { setup.stages.clear(); });
  refuses([](SwitchedSetup& setup) { setup.stages[0].orders = {{Switching::off}}; });  // no trigger
  refuses([](SwitchedSetup& setup) { setup.stages[0].orders = {{Switching::off, 1e-3, 2e-3}}; });
  refuses([](SwitchedSetup& setup) { setup.stages[0].orders = {{Switching::off, 1e-3, {}, -1e-6}}; });
  refuses([](SwitchedSetup& setup) { setup.travel.dry_friction_N = -0.1; });
  refuses([](SwitchedSetup& setup) { setup.travel.restitution = 1.1; });
}

TEST_CASE("each event of a stroke has a word of its own") {
  std::vector<std::string> words;
  for (int k = 0; k <= static_cast<int>(StrokeEvent::hit_high); ++k)
    words.emplace_back(word_for(static_cast<StrokeEvent>(k)));
  std::sort(words.begin(), words.end());
  CHECK_FALSE(words.front().empty());
  CHECK(std::adjacent_find(words.begin(), words.end()) == words.end());
}

}  // namespace coilpull
