// SPDX-License-Identifier: GPL-3.0-or-later
// What ends a piece of a stroke, and what is done then.
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

void Pieces::watch_circuit(StrokeOptions& options) {
  const Feed& f = setup_.feed;
  const double p = polarity_;
  if (conducts_ == Conducts::feed && f.limit_A)
    add(
        options, [=](const StrokePoint& at) { return *f.limit_A * (1 + beyond) - p * at.current_A; },
        [this] {
          conducts_ = Conducts::limiter;
          tell(StrokeEvent::limit_reached);
        });
  if (conducts_ == Conducts::limiter)
    add(
        options,
        [=](const StrokePoint& at) {
          const double there = f.capacitor_F ? at.state.capacitor_V : f.volt;
          return there * (1 + beyond) - p * (at.voltage_V + f.ohm * at.current_A);
        },
        [this] {
          conducts_ = Conducts::feed;
          tell(StrokeEvent::limit_left);
        });
  if (f.capacitor_F && (conducts_ == Conducts::feed || conducts_ == Conducts::limiter))
    add(
        options, [](const StrokePoint& at) { return at.state.capacitor_V; },
        [this] {
          tell(StrokeEvent::capacitor_empty);
          switch_to(Switching::off);
        });
  if (conducts_ == Conducts::taker)
    add(
        options, [way = taker_way_](const StrokePoint& at) { return way * at.current_A + beyond; },
        [this] {
          conducts_ = Conducts::nothing;
          tell(StrokeEvent::current_died);
        });
  if (conducts_ != Conducts::nothing) return;
  for (const double way : {p, -p}) {
    if (way != p && !f.both_ways) continue;
    add(
        options,
        [=](const StrokePoint& at) { return f.takes_over_V * (1 + beyond) + beyond + way * at.voltage_V; },
        [this, way] {
          conducts_ = Conducts::taker;
          taker_way_ = way;
          tell(StrokeEvent::taken_over);
        });
  }
}

void Pieces::watch_orders(StrokeOptions& options) {
  if (cut_ || pending_ || next_ >= setup_.orders.size() || !setup_.orders[next_].at_displacement) return;
  const SwitchOrder& order = setup_.orders[next_];
  add(
      options, [z = *order.at_displacement](const StrokePoint& at) { return at.state.displacement - z; },
      [this, delay = order.delay_s] { pending_ = state_.time_s + delay; });
}

}  // namespace coilpull::detail
