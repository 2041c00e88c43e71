// SPDX-License-Identifier: GPL-3.0-or-later
#include "solver/motion/stroke.hpp"

#include <algorithm>
#include <boost/numeric/odeint.hpp>
#include <cmath>
#include <stdexcept>

#include "solver/motion/first_crossing.hpp"
#include "solver/motion/stage_field.hpp"

namespace coilpull {

using detail::Ending;

namespace {

/// Displacement, speed, bank, work, damped; then of each stage linkage, winding, energy delivered, heat.
using Vector = std::vector<double>;
constexpr std::size_t shared = 5, of_a_stage = 4;

struct NoCurrent {};

Vector vector_of(const StrokeState& s) {
  Vector x = {s.displacement, s.speed_m_per_s, s.bank_V, 0, 0};
  for (const WindingState& w : s.windings) x.insert(x.end(), {w.linkage_Wb, w.degC, 0, 0});
  return x;
}

StrokeState state_of(const Vector& x, double time) {
  StrokeState s{time, x[0], x[1], x[2], {}};
  for (std::size_t k = shared; k < x.size(); k += of_a_stage) s.windings.push_back({x[k], x[k + 1]});
  return s;
}

/// The right-hand side; remembers the last currents as the next ones' start.
class MotionEquations {
public:
  MotionEquations(const CoenergyFunction& function, const StrokeSetup& setup)
      : function_(function),
        setup_(setup),
        last_(setup.stages.size(), 0.0),
        circuits_(setup.stages.size(), Circuit{}) {}

  StrokePoint point(const Vector& x, double time) {
    solve(x);
    StrokePoint p{state_of(x, time), force_N_, {}};
    for (const Circuit& c : circuits_)
      p.windings.push_back({c.current, c.winding_ohm * c.current + c.linkage_rate});
    return p;
  }

  void operator()(const Vector& x, Vector& dx, double) {
    solve(x);
    const Mover& m = setup_.mover;
    const WindingBody& w = setup_.winding;
    const double speed = speed_of(x);
    const double others = m.force_N - m.spring_N_per_m * (x[0] - m.spring_rest) - m.damping_N_s_per_m * speed;
    dx[0] = speed;
    dx[1] = m.held ? 0 : (force_N_ + others) / m.mass_kg;
    dx[2] = setup_.bank ? -bank_A_ / setup_.bank->farad : 0;
    dx[3] = force_N_ * speed;
    dx[4] = m.damping_N_s_per_m * speed * speed;
    for (std::size_t k = 0; k < circuits_.size(); ++k) {
      const Circuit& c = circuits_[k];
      double* const d = &dx[shared + of_a_stage * k];
      const double i = c.current, degC = x[shared + of_a_stage * k + 1];
      d[0] = c.linkage_rate;
      d[1] = (c.winding_ohm * i * i - w.cooling_W_per_K * (degC - w.around_degC)) / w.heat_capacity_J_per_K;
      d[2] = c.source_V * i;
      d[3] = (c.source_V - c.linkage_rate) * i;
    }
  }

  double stored(const Vector& x) {
    solve(x);
    double sum = 0;
    for (std::size_t k = 0; k < circuits_.size(); ++k) {
      const double i = circuits_[k].current;
      sum += x[shared + of_a_stage * k] * i -
             stage_field(function_, x[0] - setup_.stages[k].place, i).coenergy_J;
    }
    return sum;
  }

private:
  struct Circuit {
    double current, winding_ohm;
    CoenergyPoint at;
    double linkage_rate;  ///< [V]
    double source_V;      ///< of supply or bank, in the direction of a positive current
  };

  double speed_of(const Vector& x) const { return setup_.mover.held ? 0 : x[1]; }

  void solve(const Vector& x) {
    const WindingBody& w = setup_.winding;
    force_N_ = bank_A_ = 0;
    for (std::size_t k = 0; k < circuits_.size(); ++k) {
      const Drive& d = setup_.stages[k];
      const double* const own = &x[shared + of_a_stage * k];
      Circuit& c = circuits_[k];
      const double z = x[0] - d.place;
      c.current = d.held_A ? *d.held_A : current_at(k, z, own[0]);
      c.winding_ohm = w.resistance_20_ohm * (1 + w.per_kelvin * (own[1] - 20));
      c.at = c.current == 0 && out_of_reach(function_, z) ? CoenergyPoint{}
                                                          : stage_field(function_, z, c.current);
      force_N_ += c.at.force_N;
      if (d.from_bank) bank_A_ += d.polarity * c.current;
    }
    for (std::size_t k = 0; k < circuits_.size(); ++k) settle(circuits_[k], setup_.stages[k], x);
  }

  void settle(Circuit& c, const Drive& d, const Vector& x) const {
    double dropped = (c.winding_ohm + d.ohm) * c.current + d.drop_V;
    if (d.from_bank) dropped += d.polarity * setup_.bank->ohm * bank_A_;
    c.source_V = d.polarity * (d.from_bank ? x[2] : d.supply_V);
    c.linkage_rate = d.held_A ? c.at.force_per_ampere * speed_of(x) : c.source_V - dropped;
    if (d.held_A && !d.from_bank) c.source_V = dropped + c.linkage_rate;
  }

  double current_at(std::size_t k, double z, double linkage_Wb) {
    const auto current = current_for(function_, z, linkage_Wb, last_[k]);
    if (!current) throw NoCurrent{};
    return last_[k] = *current;
  }

  const CoenergyFunction& function_;
  const StrokeSetup& setup_;
  std::vector<double> last_;
  std::vector<Circuit> circuits_;
  double force_N_ = 0, bank_A_ = 0;
};

/// Where the outermost stage's table ends: -1 low, 1 high.
double end_of_stages(const CoenergyFunction& function, const StrokeSetup& setup, int side) {
  const SplineAxis& z = function.displacement();
  double end = setup.stages.front().place + (side < 0 ? z.from() : z.to());
  for (const Drive& d : setup.stages)
    end = side < 0 ? std::min(end, d.place + z.from()) : std::max(end, d.place + z.to());
  return end;
}

/// A current that dies is let go a little beyond 0, which may be the end of the table.
bool beyond_currents(const SplineAxis& currents, double current_A) {
  const double rounding = 1e-6 * (currents.to() - currents.from());
  return current_A < currents.from() - rounding || current_A > currents.to() + rounding;
}

EnergyAccount account_of(const Vector& x, double stored) {
  EnergyAccount account{0, 0, x[3], stored, x[4], {}};
  for (std::size_t k = shared; k < x.size(); k += of_a_stage) {
    account.stages.push_back({x[k + 2], x[k + 3]});
    account.delivered += x[k + 2];
    account.heat += x[k + 3];
  }
  return account;
}

std::vector<Ending> endings_of(const CoenergyFunction& function, const StrokeSetup& setup,
                               const StrokeOptions& options) {
  std::vector<Ending> endings;
  if (!setup.mover.held) {
    const double low = setup.stop_low.value_or(end_of_stages(function, setup, -1));
    const double high = setup.stop_high.value_or(end_of_stages(function, setup, 1));
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
  if (setup.bank && !(setup.bank->farad > 0)) throw std::invalid_argument("a capacitor is above 0");
  if (setup.stages.empty() || setup.stages.size() != start.windings.size())
    throw std::invalid_argument("a start states the winding of each stage, of which there is one at least");
  for (const Drive& d : setup.stages)
    if (d.from_bank && !setup.bank) throw std::invalid_argument("a drive from a bank needs the bank");
  if (!(options.until_s > start.time_s)) throw std::invalid_argument("a run ends after it starts");
  if (start.displacement < setup.stop_low.value_or(end_of_stages(function, setup, -1)) ||
      start.displacement > setup.stop_high.value_or(end_of_stages(function, setup, 1)))
    throw std::invalid_argument("a run starts between its stops");
}

}  // namespace

std::optional<double> current_for(const CoenergyFunction& function, double displacement, double linkage_Wb,
                                  double near) {
  double i = near;
  CoenergyPoint at = stage_field(function, displacement, i);
  for (int step = 0; step < 60; ++step) {
    const double miss = at.linkage_Wb - linkage_Wb;
    if (!(at.inductance_H > 0) || !std::isfinite(miss)) return std::nullopt;
    double change = -miss / at.inductance_H;
    if (std::abs(change) <= 1e-14 * (1 + std::abs(i))) return i + change;
    CoenergyPoint next = stage_field(function, displacement, i + change);
    while (std::abs(next.linkage_Wb - linkage_Wb) > std::abs(miss) && std::abs(change) > 1e-12)
      next = stage_field(function, displacement, i + (change /= 2));
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
  MotionEquations equations(function, setup);
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
    for (const WindingPoint& w : run.points.back().windings)
      run.left_table = run.left_table || beyond_currents(function.current(), w.current_A);
  };
  try {
    Vector x = vector_of(start);
    const double stored_at_first = equations.stored(x);
    note(x, start.time_s);
    stepper.initialize(x, start.time_s, 1e-6 * length);
    const auto at = [&](double time) {
      Vector there(x.size());
      stepper.calc_state(time, there);
      return there;
    };
    bool over = false;
    while (!over) {
      const auto [from, to] =
          stepper.do_step([&](const Vector& y, Vector& dy, double t) { equations(y, dy, t); });
      double until = std::min(to, options.until_s);
      over = to >= options.until_s;
      const auto crossing = detail::first_crossing(
          endings, from, until, 1e-13 * length, [&](double time) { return equations.point(at(time), time); });
      if (crossing) {
        until = crossing->time_s;
        run.end = endings[crossing->ending].end;
        run.which = crossing->ending - (endings.size() - options.ends_when.size());
        over = true;
      }
      x = at(until);
      note(x, until);
    }
    run.energy = account_of(x, equations.stored(x) - stored_at_first);
  } catch (const NoCurrent&) {
    run.end = StrokeEnd::no_current;
  } catch (const odeint::odeint_error&) {
    run.end = StrokeEnd::step_too_small;
  }
  return run;
}

}  // namespace coilpull
