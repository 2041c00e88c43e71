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

/// displacement, speed, linkage, capacitor, winding; then energy delivered, heat, work, damped.
using Vector = std::array<double, 9>;

struct NoCurrent {};

Vector vector_of(const StrokeState& s) {
  return {s.displacement, s.speed_m_per_s, s.linkage_Wb, s.capacitor_V, s.winding_degC, 0, 0, 0, 0};
}

StrokeState state_of(const Vector& x, double time) { return {time, x[0], x[1], x[2], x[3], x[4]}; }

/// The right-hand side; remembers the last current as the next one's start.
class Equations {
public:
  Equations(const CoenergyFunction& function, const StrokeSetup& setup)
      : function_(function), setup_(setup) {}

  StrokePoint point(const Vector& x, double time) {
    const Circuit c = circuit(x);
    return {state_of(x, time), c.current, c.at.force_N, c.winding_ohm * c.current + c.linkage_rate};
  }

  void operator()(const Vector& x, Vector& dx, double) {
    const Circuit c = circuit(x);
    const double i = c.current;
    const Mover& m = setup_.mover;
    const Drive& d = setup_.drive;
    const WindingBody& w = setup_.winding;
    const double speed = speed_of(x);
    const double others = m.force_N - m.spring_N_per_m * (x[0] - m.spring_rest) - m.damping_N_s_per_m * speed;
    dx[0] = speed;
    dx[1] = m.held ? 0 : (c.at.force_N + others) / m.mass_kg;
    dx[2] = c.linkage_rate;
    dx[3] = d.capacitor_F ? -d.polarity * i / *d.capacitor_F : 0;
    dx[4] = (c.winding_ohm * i * i - w.cooling_W_per_K * (x[4] - w.around_degC)) / w.heat_capacity_J_per_K;
    dx[5] = c.source_V * i;
    dx[6] = (c.source_V - c.linkage_rate) * i;
    dx[7] = c.at.force_N * speed;
    dx[8] = m.damping_N_s_per_m * speed * speed;
  }

  double stored(const Vector& x) {
    const double i = current_at(x);
    return x[2] * i - function_.at(x[0], i).coenergy_J;
  }

private:
  struct Circuit {
    double current, winding_ohm;
    CoenergyPoint at;
    double linkage_rate;  ///< [V]
    double source_V;      ///< of supply or capacitor, in the direction of a positive current
  };

  double speed_of(const Vector& x) const { return setup_.mover.held ? 0 : x[1]; }

  Circuit circuit(const Vector& x) {
    const Drive& d = setup_.drive;
    const WindingBody& w = setup_.winding;
    Circuit c{current_at(x), w.resistance_20_ohm * (1 + w.per_kelvin * (x[4] - 20)), {}, 0, 0};
    c.at = function_.at(x[0], c.current);
    const double dropped = (c.winding_ohm + d.ohm) * c.current + d.drop_V;
    c.source_V = d.polarity * (d.capacitor_F ? x[3] : d.supply_V);
    if (!d.held_A) {
      c.linkage_rate = c.source_V - dropped;
      return c;
    }
    c.linkage_rate = c.at.force_per_ampere * speed_of(x);
    if (!d.capacitor_F) c.source_V = dropped + c.linkage_rate;
    return c;
  }

  double current_at(const Vector& x) {
    if (setup_.drive.held_A) return *setup_.drive.held_A;
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

/// When an ending crosses 0 between two points, and before `ends`.
template <class PointAt>
std::optional<double> crossing_of(const Ending& ending, const StrokePoint& from, const StrokePoint& to,
                                  double ends, double tolerance, const PointAt& point_at) {
  const auto value = [&](double time) { return ending.root(point_at(time)); };
  const double before = ending.root(from), begins = from.state.time_s;
  const double after = ends < to.state.time_s ? value(ends) : ending.root(to);
  if (before == 0 && after < 0 && ending.end != StrokeEnd::asked)
    return begins;                                             // on a stop and pushed against it
  if (before == 0 || before * after > 0) return std::nullopt;  // starts there, or does not cross
  if (after == 0) return ends;
  const auto close = [&](double a, double b) { return std::abs(a - b) <= tolerance; };
  std::uintmax_t steps = 100;
  return boost::math::tools::toms748_solve(value, begins, ends, before, after, close, steps).second;
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
  StrokeRun run{{}, {}, StrokeEnd::time_over};
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
      const double last = std::min(to, options.until_s);
      over = to >= options.until_s;
      double until = last;
      constexpr int parts = 8;
      StrokePoint before = equations.point(at(from), from);
      for (int part = 1; part <= parts && until == last; ++part) {
        const double begins = before.state.time_s;
        double ends = part == parts ? last : from + (last - from) * part / parts;
        const StrokePoint after = equations.point(at(ends), ends);
        for (std::size_t e = 0; e < endings.size(); ++e) {
          const auto crossing = crossing_of(endings[e], before, after, ends, 1e-13 * length,
                                            [&](double time) { return equations.point(at(time), time); });
          if (!crossing) continue;
          until = ends = std::max(*crossing, begins);
          run.end = endings[e].end;
          run.which = e - (endings.size() - options.ends_when.size());
          over = true;
        }
        before = after;
      }
      x = at(until);
      note(x, until);
    }
    run.energy = {x[5], x[6], x[7], equations.stored(x) - stored_at_first, x[8]};
  } catch (const NoCurrent&) {
    run.end = StrokeEnd::no_current;
  } catch (const odeint::odeint_error&) {
    run.end = StrokeEnd::step_too_small;
  }
  return run;
}

}  // namespace coilpull
