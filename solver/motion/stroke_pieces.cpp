// SPDX-License-Identifier: GPL-3.0-or-later
#include "solver/motion/stroke_pieces.hpp"

#include <algorithm>
#include <cmath>
#include <utility>

#include "solver/motion/stage_field.hpp"

namespace coilpull::detail {
namespace {
constexpr std::size_t most_pieces = 100000;
}

Pieces::Pieces(const CoenergyFunction& function, const SwitchedSetup& setup, const StrokeState& start,
               const StrokeOptions& options)
    : function_(function), setup_(setup), options_(options), state_(start) {
  run_.energy.stages.resize(setup.stages.size());
  const SplineAxis& z = function.displacement();
  const auto [first, last] =
      std::minmax_element(setup.stages.begin(), setup.stages.end(),
                          [](const auto& a, const auto& b) { return a.place < b.place; });
  low_ = setup.travel.stop_low.value_or(first->place + z.from());
  high_ = setup.travel.stop_high.value_or(last->place + z.to());
  for (std::size_t k = 0; k < setup.stages.size(); ++k) {
    const SwitchedStage& stage = setup.stages[k];
    StageCircuit c{stage.first, stage.first == Switching::off ? Conducts::nothing : Conducts::feed};
    c.current_A =
        current_for(function, start.displacement - stage.place, start.windings[k].linkage_Wb, 0).value_or(0);
    c.polarity = stage.first == Switching::reversed ? -1 : 1;
    c.last_acted_s = start.time_s;
    if (std::abs(c.current_A) > beyond && stage.first == Switching::off) take_over(c);
    circuits_.push_back(c);
  }
  settle_motion();
}

SwitchedRun Pieces::run() {
  for (std::size_t piece = 0; piece < most_pieces; ++piece) {
    if (obey_due_orders()) continue;
    if (over_ || state_.time_s >= options_.until_s) return finished();
    one_piece();
  }
  run_.end = SwitchedEnd::too_many_events;
  return finished();
}

CoenergyPoint Pieces::field_of(std::size_t k) const {
  return stage_field(function_, state_.displacement - setup_.stages[k].place, circuits_[k].current_A);
}

double Pieces::net_force() const {
  const Mover& m = setup_.travel.mover;
  double force = m.force_N - m.spring_N_per_m * (state_.displacement - m.spring_rest) -
                 m.damping_N_s_per_m * state_.speed_m_per_s;
  for (std::size_t k = 0; k < circuits_.size(); ++k) force += field_of(k).force_N;
  return force;
}

double Pieces::rounding() const { return 1e-12 * (high_ - low_); }

void Pieces::settle_motion() {
  const double v = state_.speed_m_per_s, net = net_force(), dry = setup_.travel.dry_friction_N;
  if (setup_.travel.mover.held)
    way_ = 0;
  else if (v != 0)
    way_ = v > 0 ? 1 : -1;
  else
    way_ = std::abs(net) <= dry || blocked(net) ? 0 : (net > 0 ? 1 : -1);
}

bool Pieces::blocked(double push) const {
  return (push < 0 && state_.displacement <= low_) || (push > 0 && state_.displacement >= high_);
}

StrokeSetup Pieces::piece_setup() const {
  StrokeSetup s{setup_.travel.mover, {}, setup_.winding, low_, high_};
  s.mover.held = way_ == 0;
  s.mover.force_N -= way_ * setup_.travel.dry_friction_N;
  if (setup_.feed.capacitor_F) s.bank = Bank{*setup_.feed.capacitor_F, setup_.feed.bank_ohm};
  for (std::size_t k = 0; k < circuits_.size(); ++k) s.stages.push_back(drive_of(k));
  return s;
}

void Pieces::one_piece() {
  StrokeOptions options = options_;
  acts_.clear();
  options.ends_when.clear();
  if (!cut_ && setup_.cut_off_s) options.until_s = std::min(options.until_s, *setup_.cut_off_s);
  watch_motion(options);
  watch_bank(options);
  for (std::size_t k = 0; k < circuits_.size(); ++k) {
    settle_circuit(k);
    if (const auto time = due(k)) options.until_s = std::min(options.until_s, *time);
    watch_circuit(options, k);
    watch_orders(options, k);
  }
  if (state_.displacement < low_ + rounding() && state_.displacement > low_ - rounding())
    state_.displacement = low_;  // a mover held at a stop: interpolation leaves the last digits
  if (state_.displacement < high_ + rounding() && state_.displacement > high_ - rounding())
    state_.displacement = high_;
  const StrokeSetup setup = piece_setup();
  for (std::size_t k = 0; k < circuits_.size(); ++k) {
    if (setup.stages[k].held_A) circuits_[k].current_A = *setup.stages[k].held_A;
    // what is held has a linkage of its own; roots leave the last digits
    state_.windings[k].linkage_Wb = field_of(k).linkage_Wb;
  }
  const StrokeState before = state_;
  const StrokeRun piece = simulate_stroke(function_, setup, before, options);
  run_.points.insert(run_.points.end(), piece.points.begin(), piece.points.end());
  run_.left_table = run_.left_table || piece.left_table;
  if (!piece.points.empty()) {
    state_ = piece.points.back().state;
    for (std::size_t k = 0; k < circuits_.size(); ++k)
      circuits_[k].current_A = piece.points.back().windings[k].current_A;
  }
  account(piece, before);
  act_on(piece);
}

void Pieces::account(const StrokeRun& piece, const StrokeState& before) {
  StrokeEnergy& e = run_.energy;
  const Mover& m = setup_.travel.mover;
  const double from = before.displacement, to = state_.displacement;
  const auto squared = [](double x) { return x * x; };
  e.delivered += piece.energy.delivered;
  e.heat += piece.energy.heat;
  e.stored += piece.energy.stored;
  for (std::size_t k = 0; k < piece.energy.stages.size(); ++k) {
    e.stages[k].delivered += piece.energy.stages[k].delivered;
    e.stages[k].heat += piece.energy.stages[k].heat;
  }
  e.kinetic += m.mass_kg / 2 * (squared(state_.speed_m_per_s) - squared(before.speed_m_per_s));
  e.spring += m.spring_N_per_m / 2 * (squared(to - m.spring_rest) - squared(from - m.spring_rest));
  e.friction += setup_.travel.dry_friction_N * std::abs(to - from) + piece.energy.damped;
  e.lifted -= m.force_N * (to - from);
}

void Pieces::act_on(const StrokeRun& piece) {
  switch (piece.end) {
    case StrokeEnd::time_over:
      return;
    case StrokeEnd::asked:
      acts_[piece.which]();
      return;
    case StrokeEnd::stop_low:
      meet(low_, StrokeEvent::hit_low, SwitchedEnd::left_low);
      return;
    case StrokeEnd::stop_high:
      meet(high_, StrokeEvent::hit_high, SwitchedEnd::left_high);
      return;
    case StrokeEnd::no_current:
      leave(SwitchedEnd::no_current);
      return;
    case StrokeEnd::step_too_small:
      leave(SwitchedEnd::step_too_small);
      return;
  }
}

void Pieces::leave(SwitchedEnd end) {
  run_.end = end;
  over_ = true;
}

void Pieces::meet(double stop, StrokeEvent event, SwitchedEnd end) {
  tell(event);
  if (!setup_.travel.restitution) return leave(end);
  const double v = state_.speed_m_per_s;
  double after = -*setup_.travel.restitution * v;
  if (std::abs(after) < setup_.travel.rest_m_per_s) after = 0;
  const double lost = setup_.travel.mover.mass_kg / 2 * (v * v - after * after);
  run_.energy.impacts += lost;
  run_.energy.kinetic -= lost;
  state_.displacement = stop;
  state_.speed_m_per_s = after;
  settle_motion();
}

}  // namespace coilpull::detail
