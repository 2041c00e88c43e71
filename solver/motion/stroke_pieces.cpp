// SPDX-License-Identifier: GPL-3.0-or-later
#include "solver/motion/stroke_pieces.hpp"

#include <cmath>
#include <utility>

namespace coilpull::detail {
namespace {
constexpr std::size_t most_pieces = 100000;
}

Pieces::Pieces(const CoenergyFunction& function, const SwitchedSetup& setup, const StrokeState& start,
               const StrokeOptions& options)
    : function_(function), setup_(setup), options_(options), state_(start), switched_(setup.first) {
  low_ = setup.travel.stop_low.value_or(function.displacement().from());
  high_ = setup.travel.stop_high.value_or(function.displacement().to());
  current_ = current_for(function, start.displacement, start.linkage_Wb, 0).value_or(0);
  polarity_ = switched_ == Switching::reversed ? -1 : 1;
  conducts_ = switched_ == Switching::off ? Conducts::nothing : Conducts::feed;
  if (std::abs(current_) > beyond && switched_ == Switching::off) take_over();
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

double Pieces::net_force() const {
  const Mover& m = setup_.travel.mover;
  return function_.at(state_.displacement, current_).force_N + m.force_N -
         m.spring_N_per_m * (state_.displacement - m.spring_rest) -
         m.damping_N_s_per_m * state_.speed_m_per_s;
}

void Pieces::settle_motion() {
  const double v = state_.speed_m_per_s, net = net_force(), dry = setup_.travel.dry_friction_N;
  if (setup_.travel.mover.held)
    way_ = 0;
  else if (v != 0)
    way_ = v > 0 ? 1 : -1;
  else
    way_ = std::abs(net) <= dry || blocked(net) ? 0 : (net > 0 ? 1 : -1);
}

void Pieces::settle_circuit() {
  const Feed& f = setup_.feed;
  const double emf = function_.at(state_.displacement, current_).force_per_ampere * state_.speed_m_per_s;
  if (conducts_ == Conducts::limiter) {
    const WindingBody& w = setup_.winding;
    const double ohm = f.ohm + w.resistance_20_ohm * (1 + w.per_kelvin * (state_.winding_degC - 20));
    const double there = f.capacitor_F ? state_.capacitor_V : f.volt;
    if (polarity_ * (ohm * current_ + emf) > there) {
      conducts_ = Conducts::feed;
      tell(StrokeEvent::limit_left);
    }
  }
  if (conducts_ != Conducts::nothing) return;
  for (const double way : {polarity_, -polarity_}) {
    if (-way * emf <= f.takes_over_V || (way != polarity_ && !f.both_ways)) continue;
    conducts_ = Conducts::taker;
    taker_way_ = way;
    tell(StrokeEvent::taken_over);
  }
}

bool Pieces::blocked(double push) const {
  return (push < 0 && state_.displacement <= low_) || (push > 0 && state_.displacement >= high_);
}

void Pieces::take_over() {
  conducts_ = std::abs(current_) > beyond ? Conducts::taker : Conducts::nothing;
  taker_way_ = current_ > 0 ? 1 : -1;
}

void Pieces::switch_to(Switching to) {
  switched_ = to;
  if (to == Switching::off) {
    tell(StrokeEvent::switched_off);
    take_over();
    return;
  }
  tell(to == Switching::on ? StrokeEvent::switched_on : StrokeEvent::switched_reversed);
  polarity_ = to == Switching::on ? 1 : -1;
  conducts_ = Conducts::feed;
}

std::optional<double> Pieces::due() const {
  std::optional<double> time = pending_;
  if (!time && next_ < setup_.orders.size() && setup_.orders[next_].at_time_s)
    time = *setup_.orders[next_].at_time_s + setup_.orders[next_].delay_s;
  return time;
}

bool Pieces::obey_due_orders() {
  if (!cut_ && setup_.cut_off_s && state_.time_s >= *setup_.cut_off_s) {
    cut_ = true;
    if (switched_ != Switching::off) switch_to(Switching::off);
    return true;
  }
  if (cut_ || !due() || state_.time_s < *due()) return false;
  pending_.reset();
  switch_to(setup_.orders[next_++].to);
  return true;
}

StrokeSetup Pieces::piece_setup() const {
  StrokeSetup s{setup_.travel.mover, {}, setup_.winding, low_, high_};
  s.mover.held = way_ == 0;
  s.mover.force_N -= way_ * setup_.travel.dry_friction_N;
  const Feed& f = setup_.feed;
  if (conducts_ == Conducts::feed || conducts_ == Conducts::limiter)
    s.drive = {f.volt, f.capacitor_F, f.ohm, polarity_};
  if (conducts_ == Conducts::limiter) s.drive.held_A = polarity_ * *f.limit_A;
  if (conducts_ == Conducts::taker) s.drive.drop_V = taker_way_ * f.takes_over_V;
  if (conducts_ == Conducts::nothing) s.drive.held_A = 0;
  return s;
}

void Pieces::one_piece() {
  settle_circuit();
  StrokeOptions options = options_;
  acts_.clear();
  options.ends_when.clear();
  if (const auto time = due()) options.until_s = std::min(options.until_s, *time);
  if (!cut_ && setup_.cut_off_s) options.until_s = std::min(options.until_s, *setup_.cut_off_s);
  watch_motion(options);
  watch_circuit(options);
  watch_orders(options);
  // what is held has a linkage of its own; roots leave the last digits
  state_.linkage_Wb = function_.at(state_.displacement, current_).linkage_Wb;
  const StrokeSetup setup = piece_setup();
  if (setup.drive.held_A) {
    current_ = *setup.drive.held_A;
    state_.linkage_Wb = function_.at(state_.displacement, current_).linkage_Wb;
  }
  const StrokeState before = state_;
  const StrokeRun piece = simulate_stroke(function_, setup, before, options);
  run_.points.insert(run_.points.end(), piece.points.begin(), piece.points.end());
  run_.left_table = run_.left_table || piece.left_table;
  if (!piece.points.empty()) {
    state_ = piece.points.back().state;
    current_ = piece.points.back().current_A;
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
