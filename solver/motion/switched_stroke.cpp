// SPDX-License-Identifier: GPL-3.0-or-later
#include "solver/motion/switched_stroke.hpp"

#include <stdexcept>

#include "solver/motion/stage_field.hpp"
#include "solver/motion/stroke_pieces.hpp"

namespace coilpull {
namespace {

void check(const SwitchedSetup& setup) {
  if (setup.stages.empty()) throw std::invalid_argument("a stroke has one stage at least");
  for (const SwitchedStage& stage : setup.stages)
    for (const SwitchOrder& order : stage.orders) {
      const int triggers = order.at_time_s.has_value() + order.at_displacement.has_value() +
                           order.after_s.has_value() + static_cast<bool>(order.level);
      if (triggers != 1 || order.delay_s < 0)
        throw std::invalid_argument("an order has one trigger, and no negative delay");
    }
  if (setup.travel.dry_friction_N < 0) throw std::invalid_argument("friction is 0 or more");
  const double e = setup.travel.restitution.value_or(0);
  if (!(e >= 0 && e <= 1)) throw std::invalid_argument("a restitution is 0 to 1");
}

}  // namespace

const char* word_for(StrokeEvent event) {
  switch (event) {
    case StrokeEvent::switched_on:
      return "switched on";
    case StrokeEvent::switched_reversed:
      return "reversed";
    case StrokeEvent::switched_off:
      return "switched off";
    case StrokeEvent::capacitor_empty:
      return "capacitor empty";
    case StrokeEvent::limit_reached:
      return "current limit reached";
    case StrokeEvent::limit_left:
      return "current limit left";
    case StrokeEvent::current_died:
      return "current has died away";
    case StrokeEvent::taken_over:
      return "diode or clamp conducts by the motion";
    case StrokeEvent::stuck:
      return "came to rest";
    case StrokeEvent::broke_loose:
      return "set off";
    case StrokeEvent::turned_round:
      return "turned round";
    case StrokeEvent::hit_low:
      return "met the lower end";
    case StrokeEvent::hit_high:
      return "met the upper end";
  }
  return "";
}

StrokeState start_without_current(const CoenergyFunction& function, const SwitchedSetup& setup,
                                  double displacement) {
  StrokeState start;
  start.displacement = displacement;
  start.bank_V = setup.feed.volt;
  start.windings.clear();
  for (const SwitchedStage& stage : setup.stages)
    start.windings.push_back(
        {stage_field(function, displacement - stage.place, 0).linkage_Wb, setup.winding.around_degC});
  return start;
}

SwitchedRun simulate_switched_stroke(const CoenergyFunction& function, const SwitchedSetup& setup,
                                     const StrokeState& start, const StrokeOptions& options) {
  check(setup);
  if (start.windings.size() != setup.stages.size())
    throw std::invalid_argument("a start states the winding of each stage");
  return detail::Pieces(function, setup, start, options).run();
}

}  // namespace coilpull
