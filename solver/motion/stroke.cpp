// SPDX-License-Identifier: GPL-3.0-or-later
#include "solver/motion/stroke.hpp"

#include <algorithm>
#include <array>
#include <boost/math/tools/toms748_solve.hpp>
#include <boost/numeric/odeint.hpp>
#include <cmath>
#include <stdexcept>

namespace coilpull {
namespace {

/// displacement, speed, linkage, capacitor, winding; then energy delivered, heat, work.
using Vector = std::array<double, 8>;

struct NoCurrent {};

Vector vector_of(const StrokeState& s) {
  return {s.displacement, s.speed_m_per_s, s.linkage_Wb, s.capacitor_V, s.winding_degC, 0, 0, 0};
}

StrokeState state_of(const Vector& x, double time) { return {time, x[0], x[1], x[2], x[3], x[4]}; }

/// The right-hand side; remembers the last current as the next one's start.
class Equations {
public:
  Equations(const CoenergyFunction& function, const StrokeSetup& setup)
      : function_(function), setup_(setup) {}

  StrokePoint point(const Vector& x, double time) {
    const double current = current_at(x);
    return {state_of(x, time), current, function_.at(x[0], current).force_N};
  }

  void operator()(const Vector& x, Vector& dx, double) {
    const double i = current_at(x), force = function_.at(x[0], i).force_N;
    const Mover& m = setup_.mover;
    const WindingBody& w = setup_.winding;
    const double winding_ohm = w.resistance_20_ohm * (1 + w.per_kelvin * (x[4] - 20));
    const double ohm = winding_ohm + setup_.drive.ohm;
    const double u = setup_.drive.capacitor_F ? x[3] : setup_.drive.supply_V;
    const double speed = m.held ? 0 : x[1];
    const double others = m.force_N - m.spring_N_per_m * (x[0] - m.spring_rest) - m.damping_N_s_per_m * speed;
    dx[0] = speed;
    dx[1] = m.held ? 0 : (force + others) / m.mass_kg;
    dx[2] = u - ohm * i;
    dx[3] = setup_.drive.capacitor_F ? -i / *setup_.drive.capacitor_F : 0;
    dx[4] = (winding_ohm * i * i - w.cooling_W_per_K * (x[4] - w.around_degC)) / w.heat_capacity_J_per_K;
    dx[5] = u * i;
    dx[6] = ohm * i * i;
    dx[7] = force * speed;
  }

  double stored(const Vector& x) {
    const double i = current_at(x);
    return x[2] * i - function_.at(x[0], i).coenergy_J;
  }

private:
  double current_at(const Vector& x) {
    const auto current = current_for(function_, x[0], x[2], last_);
    if (!current) throw NoCurrent{};
    return last_ = *current;
  }

  const CoenergyFunction& function_;
  const StrokeSetup& setup_;
  double last_ = 0;
};

struct Ending {
  StrokeEnd end;
  std::function<double(const StrokePoint&)> root;  ///< ends when it crosses 0
};

std::vector<Ending> endings_of(const CoenergyFunction& function, const StrokeSetup& setup,
                               const StrokeOptions& options) {
  std::vector<Ending> endings;
  if (!setup.mover.held) {
    const double low = setup.stop_low.value_or(function.displacement().from());
    const double high = setup.stop_high.value_or(function.displacement().to());
    endings.push_back(
        {StrokeEnd::stop_low, [low](const StrokePoint& p) { return p.state.displacement - low; }});
    endings.push_back(
        {StrokeEnd::stop_high, [high](const StrokePoint& p) { return high - p.state.displacement; }});
  }
  for (const auto& root : options.ends_when) endings.push_back({StrokeEnd::asked, root});
  return endings;
}

void check(const CoenergyFunction& function, const StrokeSetup& setup, const StrokeState& start,
           const StrokeOptions& options) {
  if (!(setup.mover.mass_kg > 0)) throw std::invalid_argument("a mover has a mass above 0");
  if (!(setup.winding.heat_capacity_J_per_K > 0))
    throw std::invalid_argument("a winding's heat capacity is above 0");
  if (setup.drive.capacitor_F && !(*setup.drive.capacitor_F > 0))
    throw std::invalid_argument("a capacitor is above 0");
  if (!(options.until_s > start.time_s)) throw std::invalid_argument("a run ends after it starts");
  if (start.displacement < setup.stop_low.value_or(function.displacement().from()) ||
      start.displacement > setup.stop_high.value_or(function.displacement().to()))
    throw std::invalid_argument("a run starts between its stops");
}

}  // namespace

std::optional<double> current_for(const CoenergyFunction& function, double displacement, double linkage_Wb,
                                  double near) {
  double i = near;
  CoenergyPoint at = function.at(displacement, i);
  for (int step = 0; step < 60; ++step) {
    const double miss = at.linkage_Wb - linkage_Wb;
    if (!(at.inductance_H > 0) || !std::isfinite(miss)) return std::nullopt;
    double change = -miss / at.inductance_H;
    if (std::abs(change) <= 1e-14 * (1 + std::abs(i))) return i + change;
    CoenergyPoint next = function.at(displacement, i + change);
    while (std::abs(next.linkage_Wb - linkage_Wb) > std::abs(miss) && std::abs(change) > 1e-12)
      next = function.at(displacement, i + (change /= 2));
    if (std::abs(next.linkage_Wb - linkage_Wb) >= std::abs(miss)) return i;  // as near as rounding goes
    i += change;
    at = next;
  }
  return std::nullopt;
}

StrokeRun simulate_stroke(const CoenergyFunction& function, const StrokeSetup& setup,
                          const StrokeState& start, const StrokeOptions& options) {
  check(function, setup, start, options);
  namespace odeint = boost::numeric::odeint;
  Equations equations(function, setup);
  const std::vector<Ending> endings = endings_of(function, setup, options);
  const double length = options.until_s - start.time_s;
  StrokeRun run{{}, {}, StrokeEnd::time_over, false};
  // a step's absolute error is held below 1e-3 of the relative one in SI units: mm, mWb, mJ are the scale of
  // things
  auto stepper =
      odeint::make_dense_output(1e-3 * options.relative_error, options.relative_error,
                                options.most_part_of_time * length, odeint::runge_kutta_dopri5<Vector>());
  const auto note = [&](const Vector& x, double time) {
    run.points.push_back(equations.point(x, time));
    run.left_table = run.left_table || !function.current().covers(run.points.back().current_A);
  };
  try {
    Vector x = vector_of(start);
    const double stored_at_first = equations.stored(x);
    note(x, start.time_s);
    stepper.initialize(x, start.time_s, 1e-6 * length);
    const auto at = [&](double time) {
      Vector there;
      stepper.calc_state(time, there);
      return there;
    };
    bool over = false;
    while (!over) {
      const auto [from, to] =
          stepper.do_step([&](const Vector& y, Vector& dy, double t) { equations(y, dy, t); });
      double until = std::min(to, options.until_s);
      over = to >= options.until_s;
      for (const Ending& ending : endings) {
        const auto value = [&](double time) { return ending.root(equations.point(at(time), time)); };
        const double before = value(from), after = value(until);
        const bool pressed = before == 0 && after < 0 && ending.end != StrokeEnd::asked;
        if (!pressed && (before == 0 || before * after > 0)) continue;  // starts there, or does not cross
        const auto close = [&](double a, double b) { return std::abs(a - b) <= 1e-13 * length; };
        std::uintmax_t steps = 100;
        if (pressed)
          until = from;  // the run starts on a stop and is pushed against it
        else if (after != 0)
          until = boost::math::tools::toms748_solve(value, from, until, before, after, close, steps).second;
        run.end = ending.end;
        over = true;
      }
      x = at(until);
      note(x, until);
    }
    run.energy = {x[5], x[6], x[7], equations.stored(x) - stored_at_first};
  } catch (const NoCurrent&) {
    run.end = StrokeEnd::no_current;
  } catch (const odeint::odeint_error&) {
    run.end = StrokeEnd::step_too_small;
  }
  return run;
}

}  // namespace coilpull
