// SPDX-License-Identifier: GPL-3.0-or-later
// What the circuits of a stroke's stages do at once, and what their switches are told.
#include <cmath>

#include "solver/motion/stage_field.hpp"
#include "solver/motion/stroke_pieces.hpp"

namespace coilpull::detail {

void Pieces::settle_circuit(std::size_t k) {
  StageCircuit& c = circuits_[k];
  if (c.conducts != Conducts::limiter && c.conducts != Conducts::nothing) return;
  const Feed& f = setup_.feed;
  const double emf = field_of(k).force_per_ampere * state_.speed_m_per_s;
  if (c.conducts == Conducts::limiter) {
    const WindingBody& w = setup_.winding;
    const double ohm = f.ohm + w.resistance_20_ohm * (1 + w.per_kelvin * (state_.windings[k].degC - 20));
    if (c.polarity * (ohm * c.current_A + emf) > feed_V()) {
      c.conducts = Conducts::feed;
      tell(StrokeEvent::limit_left, k);
    }
    return;
  }
  for (const double way : {c.polarity, -c.polarity}) {
    if (-way * emf <= against_V(feed_V()) || (way != c.polarity && !f.both_ways)) continue;
    c.conducts = Conducts::taker;
    c.taker_way = way;
    tell(StrokeEvent::taken_over, k);
  }
}

double Pieces::against_V(double feed_V) const {
  return setup_.feed.takes_over_V + (setup_.feed.returns ? feed_V : 0);
}

void Pieces::take_over(StageCircuit& c) {
  c.conducts = std::abs(c.current_A) > beyond ? Conducts::taker : Conducts::nothing;
  c.taker_way = c.current_A > 0 ? 1 : -1;
}

void Pieces::switch_to(std::size_t k, Switching to) {
  StageCircuit& c = circuits_[k];
  c.switched = to;
  if (to == Switching::off) {
    tell(StrokeEvent::switched_off, k);
    take_over(c);
    return;
  }
  tell(to == Switching::on ? StrokeEvent::switched_on : StrokeEvent::switched_reversed, k);
  c.polarity = to == Switching::on ? 1 : -1;
  c.conducts = Conducts::feed;
}

const SwitchOrder* Pieces::waiting(std::size_t k) const {
  const std::vector<SwitchOrder>& orders = setup_.stages[k].orders;
  return cut_ || circuits_[k].next >= orders.size() ? nullptr : &orders[circuits_[k].next];
}

std::optional<double> Pieces::due(std::size_t k) const {
  const StageCircuit& c = circuits_[k];
  const SwitchOrder* order = waiting(k);
  if (!order || c.pending) return order ? c.pending : std::nullopt;
  if (order->at_time_s) return *order->at_time_s + order->delay_s;
  if (order->after_s) return c.last_acted_s + *order->after_s + order->delay_s;
  return std::nullopt;
}

bool Pieces::obey_due_orders() {
  if (!cut_ && setup_.cut_off_s && state_.time_s >= *setup_.cut_off_s) {
    cut_ = true;
    for (std::size_t k = 0; k < circuits_.size(); ++k)
      if (circuits_[k].switched != Switching::off) switch_to(k, Switching::off);
    return true;
  }
  for (std::size_t k = 0; k < circuits_.size(); ++k) {
    StageCircuit& c = circuits_[k];
    const SwitchOrder* order = waiting(k);
    if (order && order->level && !c.pending &&
        order->level(state_.displacement - setup_.stages[k].place, c.current_A) >= 0)
      c.pending = state_.time_s + order->delay_s;
    if (!due(k) || state_.time_s < *due(k)) continue;
    c.pending.reset();
    c.last_acted_s = state_.time_s;
    ++c.next;
    switch_to(k, order->to);
    return true;
  }
  return false;
}

Drive Pieces::drive_of(std::size_t k) const {
  const Feed& f = setup_.feed;
  const StageCircuit& c = circuits_[k];
  Drive d;
  d.place = setup_.stages[k].place;
  const auto from_feed = [&](double polarity) {
    d.supply_V = f.volt;
    d.from_bank = f.capacitor_F.has_value();
    d.polarity = polarity;
  };
  if (c.conducts == Conducts::feed || c.conducts == Conducts::limiter) {
    from_feed(c.polarity);
    d.ohm = f.ohm;
  }
  if (c.conducts == Conducts::limiter) d.held_A = c.polarity * *f.limit_A;
  if (c.conducts == Conducts::taker) {
    if (f.returns) from_feed(-c.taker_way);
    d.drop_V = c.taker_way * f.takes_over_V;
  }
  if (c.conducts == Conducts::nothing) d.held_A = 0;
  return d;
}

}  // namespace coilpull::detail
