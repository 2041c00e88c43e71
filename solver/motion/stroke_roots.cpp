// SPDX-License-Identifier: GPL-3.0-or-later
// What ends a piece of a stroke, and what is done then.
#include <algorithm>
#include <utility>

#include "solver/motion/stroke_pieces.hpp"

namespace coilpull::detail {

void Pieces::add(StrokeOptions& options, std::function<double(const StrokePoint&)> root, Act act) {
  options.ends_when.push_back(std::move(root));
  acts_.push_back(std::move(act));
}

void Pieces::watch_motion(StrokeOptions& options) {
  const Mover& m = setup_.travel.mover;
  const double dry = setup_.travel.dry_friction_N;
  if (way_ != 0) {
    add(
        options, [](const StrokePoint& p) { return p.state.speed_m_per_s; },
        [this] {
          const double was = way_;
          state_.speed_m_per_s = 0;
          settle_motion();
          tell(way_ == 0 ? StrokeEvent::stuck : StrokeEvent::turned_round);
          if (way_ == was) way_ = 0;
        });
    return;
  }
  if (m.held) return;
  const double z = state_.displacement;
  const double others = m.force_N - m.spring_N_per_m * (z - m.spring_rest);
  for (const int way : {-1, 1}) {
    if (blocked(way)) continue;
    add(
        options,
        [=](const StrokePoint& p) { return dry * (1 + beyond) + 1e-12 - way * (p.force_N + others); },
        [this, way] {
          way_ = way;
          tell(StrokeEvent::broke_loose);
        });
  }
}

void Pieces::watch_bank(StrokeOptions& options) {
  if (!setup_.feed.capacitor_F) return;
  const auto fed = [](const StageCircuit& c) {
    return c.conducts == Conducts::feed || c.conducts == Conducts::limiter;
  };
  if (std::none_of(circuits_.begin(), circuits_.end(), fed)) return;
  add(
      options, [](const StrokePoint& at) { return at.state.bank_V; },
      [this, fed] {
        tell(StrokeEvent::capacitor_empty);
        for (std::size_t k = 0; k < circuits_.size(); ++k)
          if (fed(circuits_[k])) switch_to(k, Switching::off);
      });
}

void Pieces::watch_circuit(StrokeOptions& options, std::size_t k) {
  const Feed& f = setup_.feed;
  StageCircuit& c = circuits_[k];
  const double p = c.polarity;
  const auto volts = [volt = f.volt, bank = f.capacitor_F.has_value()](const StrokePoint& at) {
    return bank ? at.state.bank_V : volt;
  };
  if (c.conducts == Conducts::feed && f.limit_A)
    add(
        options,
        [=](const StrokePoint& at) { return *f.limit_A * (1 + beyond) - p * at.windings[k].current_A; },
        [this, &c, k] {
          c.conducts = Conducts::limiter;
          tell(StrokeEvent::limit_reached, k);
        });
  if (c.conducts == Conducts::limiter)
    add(
        options,
        [=](const StrokePoint& at) {
          const WindingPoint& w = at.windings[k];
          return volts(at) * (1 + beyond) - p * (w.voltage_V + f.ohm * w.current_A);
        },
        [this, &c, k] {
          c.conducts = Conducts::feed;
          tell(StrokeEvent::limit_left, k);
        });
  if (c.conducts == Conducts::taker)
    add(
        options,
        [k, way = c.taker_way](const StrokePoint& at) { return way * at.windings[k].current_A + beyond; },
        [this, &c, k] {
          c.conducts = Conducts::nothing;
          tell(StrokeEvent::current_died, k);
        });
  if (c.conducts != Conducts::nothing) return;
  for (const double way : {p, -p}) {
    if (way != p && !f.both_ways) continue;
    add(
        options,
        [=](const StrokePoint& at) {
          const double against = against_V(volts(at));
          return against * (1 + beyond) + beyond + way * at.windings[k].voltage_V;
        },
        [this, &c, k, way] {
          c.conducts = Conducts::taker;
          c.taker_way = way;
          tell(StrokeEvent::taken_over, k);
        });
  }
}

void Pieces::watch_orders(StrokeOptions& options, std::size_t k) {
  const SwitchOrder* const order = waiting(k);
  if (!order || circuits_[k].pending) return;
  const double place = setup_.stages[k].place;
  const auto later = [this, k, delay = order->delay_s] { circuits_[k].pending = state_.time_s + delay; };
  if (order->at_displacement)
    add(
        options,
        [z = place + *order->at_displacement](const StrokePoint& at) { return at.state.displacement - z; },
        later);
  if (order->level)
    add(
        options,
        [place, k, level = order->level](const StrokePoint& at) {
          return level(at.state.displacement - place, at.windings[k].current_A);
        },
        later);
}

}  // namespace coilpull::detail
