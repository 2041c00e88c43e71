// SPDX-License-Identifier: GPL-3.0-or-later
#include "apps/motion/stroke_plan.hpp"

#include <algorithm>
#include <cmath>

#include "apps/advice/switching_advice.hpp"
#include "apps/motion/sensor_level.hpp"
#include "apps/motion/stroke_faults.hpp"
#include "apps/output/number_text.hpp"

namespace coilpull {
namespace {

Travel travel_of(const DeviceFile& file) {
  const Mechanics& m = *file.operation.mechanics;
  Travel travel{{*m.mass}};
  Mechanics without_spring = m;
  without_spring.spring.reset();
  travel.mover.force_N = push_from_outside(without_spring, 0);
  travel.mover.damping_N_s_per_m = m.viscous_friction;
  travel.dry_friction_N = m.dry_friction;
  if (m.spring) {
    travel.mover.spring_N_per_m = m.spring->rate;
    travel.mover.spring_rest = m.spring->free_at;
  }
  if (m.stops) {
    travel.stop_low = m.stops->from;
    travel.stop_high = m.stops->to;
    travel.restitution = m.stops->restitution;
  }
  return travel;
}

Feed feed_of(const DeviceFile& file, const PowerSource& source, const StrokeChoice& choice) {
  const Supply& supply = *file.operation.supply;
  Feed feed{*supply.voltage, supply.capacitance, supply.current_limit, source.stiff.ohm};
  if (supply.capacitance) {
    feed.bank_ohm = supply.series_ohm;
    feed.ohm -= supply.series_ohm;
  }
  feed.takes_over_V = supply.clamp.value_or(supply.diode.value_or(0.7));
  feed.both_ways = supply.clamp.has_value();
  feed.returns = choice.energy_return;
  return feed;
}

std::string mm(double metres) { return rounded(std::abs(metres) < 1e-9 ? 0 : in_mm(metres), 4) + " mm"; }

std::string places_words(const StrokePlan& plan) {
  return "Each stage is switched on at " + mm(*plan.on) + " and off at " + mm(*plan.off) +
         " of its own displacement";
}

/// Sense, on and off that were not stated: the window of statics.
void fill_window(StrokePlan& plan, const DeviceFile& file, const ForceTable& table, const DriveTable& drive,
                 const HeatAdvice& heat, const StrokeChoice& choice) {
  const SwitchingAdvice advice = switching_advice(table, drive, std::abs(heat.table_current_A));
  const auto& window = (plan.way > 0 ? advice.towards_plus : advice.towards_minus).plain;
  const bool asked = !choice.sense.empty() && choice.on_mm && (choice.off_mm || choice.off_after_ms);
  if (!window && !asked)
    refuse_stroke_for(
        file, {"", "",
               "no current of the table helps the mover towards " + std::string(plan.way > 0 ? "+z." : "-z."),
               "State --sense, --on-mm and --off-mm, or start from the other end by --start-mm."});
  plan.sense =
      choice.sense.empty() ? (window && window->current_A < 0 ? -1 : 1) : (choice.sense == "minus" ? -1 : 1);
  if (choice.on_by.empty()) plan.on = choice.on_mm ? *choice.on_mm * 1e-3 : window->on.value;
  if (!choice.off_after_ms && choice.off_by.empty() && choice.on_by.empty())
    plan.off = choice.off_mm ? *choice.off_mm * 1e-3 : window->off.value;
  if (choice.off_mm) plan.off = *choice.off_mm * 1e-3;
  if (plan.on && plan.off)
    plan.switching = places_words(plan) +
                     (choice.on_mm && choice.off_mm ? "." : ": what is not stated, as statics would.");
  else
    plan.switching = "Switched on " + (plan.on ? "at " + mm(*plan.on) : "by sensor " + choice.on_by) +
                     ", off " +
                     (plan.off                 ? "at " + mm(*plan.off)
                      : choice.off_after_ms    ? shortest(*choice.off_after_ms) + " ms later"
                      : !choice.off_by.empty() ? "by sensor " + choice.off_by
                                               : "as it lets go") +
                     ".";
}

Switching word_for_sense(int sense) { return sense > 0 ? Switching::on : Switching::reversed; }

/// What a stage is told, but for its switching on by displacement, which with_leads places.
std::vector<SwitchOrder> orders_of(const StrokePlan& plan, const DeviceFile& file, const ForceTable& table,
                                   const DriveTable& drive, const StrokeChoice& choice) {
  std::vector<SwitchOrder> orders;
  const auto by = [&](const std::string& name, bool operates, Switching to) {
    const SensorLevel level = sensor_level(file, name, table, drive, operates);
    SwitchOrder order{to};
    order.delay_s = level.delay_s;
    order.level = level.over;
    orders.push_back(order);
  };
  const Switching on = word_for_sense(plan.sense);
  if (!choice.on_by.empty())
    by(choice.on_by, true, on);
  else
    orders.push_back({on, {}, plan.on});
  const Switching then = choice.reverse_until_mm ? word_for_sense(-plan.sense) : Switching::off;
  if (!choice.off_by.empty())
    by(choice.off_by, choice.off_by != choice.on_by, then);
  else if (choice.off_after_ms)
    orders.push_back({then, {}, {}, 0, *choice.off_after_ms * 1e-3});
  else if (plan.off)
    orders.push_back({then, {}, plan.off});
  else
    by(choice.on_by, false, then);
  for (SwitchOrder& order : orders) order.delay_s += choice.delay_us * 1e-6;
  if (choice.reverse_until_mm) orders.push_back({Switching::off, {}, *choice.reverse_until_mm * 1e-3});
  return orders;
}

/// A stage whose window the mover stands in already is on from the start.
void start_stages(StrokePlan& plan) {
  for (SwitchedStage& stage : plan.setup.stages) {
    const double seen = plan.way * (plan.start.displacement - stage.place);
    stage.first = Switching::off;
    if (stage.orders.empty() || !stage.orders.front().at_displacement) continue;
    if (seen < plan.way * *stage.orders.front().at_displacement) continue;
    stage.first = stage.orders.front().to;
    stage.orders.erase(stage.orders.begin());
    if (!stage.orders.empty() && stage.orders.front().at_displacement &&
        seen >= plan.way * *stage.orders.front().at_displacement) {
      stage.first = Switching::off;
      stage.orders.clear();
    }
  }
}

void refuse_what_the_table_lacks(const DeviceFile& file, const DriveTable& drive) {
  const auto few =
      few_currents_fault(drive.circuit, drive.currents_A.size(), drive.least_A(), drive.most_A());
  if (few) refuse_stroke_for(file, *few);
  if (const auto stops = stops_fault(file, drive.from(), drive.to())) refuse_stroke_for(file, *stops);
}

}  // namespace

const HeatAdvice& heat_of_stroke(const DeviceFile& file, const DriveTable& drive,
                                 const std::optional<HeatAdvice>& heat) {
  if (!heat) refuse_stroke_for(file, no_wire_fault(drive.circuit));
  return *heat;
}

StrokePlan plan_stroke(const DeviceFile& file, const ForceTable& table, const DriveTable& drive,
                       const HeatAdvice& heat, const StrokeChoice& choice) {
  refuse_what_the_table_lacks(file, drive);
  StrokePlan plan{};
  plan.standing = standing_length(file.device);
  plan.pitch = choice.stages > 1 ? choice.pitch_mm * 1e-3 : 0;
  const SplineAxis& reach = drive.fit.function.displacement();
  if (const auto fault = start_fault(file, reach.from(), reach.to(), choice)) refuse_stroke_for(file, *fault);
  const double start = stroke_start(file, reach.from(), reach.to(), choice);
  plan.way = start <= 0.5 * (drive.from() + drive.to()) ? 1 : -1;
  plan.setup.travel = travel_of(file);
  plan.setup.feed = feed_of(file, heat.source, choice);
  const HeatedWinding& w = heat.winding;
  plan.setup.winding = {w.ohm_20, w.alpha_per_K, w.capacity, heat.cooling_W_per_m2_K * w.surface,
                        heat.start_degC};
  if (choice.cut_off_ms) plan.setup.cut_off_s = *choice.cut_off_ms * 1e-3;
  if (plan.setup.feed.capacitor_F)
    plan.bank_J = 0.5 * *plan.setup.feed.capacitor_F * plan.setup.feed.volt * plan.setup.feed.volt;
  if (!file.operation.supply->clamp && !file.operation.supply->diode && !choice.energy_return)
    plan.assumed.push_back(
        "A diode of 0.7 V takes the current over; [supply] diode_V or clamp_V states another.");
  fill_window(plan, file, table, drive, heat, choice);
  const std::vector<SwitchOrder> orders = orders_of(plan, file, table, drive, choice);
  plan.setup.stages.clear();
  for (int k = 0; k < choice.stages; ++k)
    plan.setup.stages.push_back({Switching::off, orders, plan.way * k * plan.pitch});
  plan.start = start_without_current(drive.fit.function, plan.setup, start);
  plan.start.speed_m_per_s = choice.speed_m_per_s * plan.way;
  plan.options.until_s = choice.until_ms * 1e-3;
  plan.options.relative_error = 1e-9;
  start_stages(plan);
  return plan;
}

StrokePlan with_leads(const StrokePlan& plan, const CoenergyFunction& function, double on_lead,
                      double off_lead, double pitch) {
  StrokePlan changed = plan;
  const Switching on = word_for_sense(plan.sense);
  const double start = plan.start.displacement;
  for (std::size_t k = 0; k < changed.setup.stages.size(); ++k)
    changed.setup.stages[k] = {
        Switching::off,
        {{on, {}, *plan.on - plan.way * on_lead}, {Switching::off, {}, *plan.off - plan.way * off_lead}},
        plan.way * static_cast<double>(k) * pitch};
  changed.pitch = pitch;
  changed.on = *plan.on - plan.way * on_lead;
  changed.off = *plan.off - plan.way * off_lead;
  changed.switching = places_words(changed) + ".";
  changed.start = start_without_current(function, changed.setup, start);
  changed.start.speed_m_per_s = plan.start.speed_m_per_s;
  start_stages(changed);
  return changed;
}

}  // namespace coilpull
