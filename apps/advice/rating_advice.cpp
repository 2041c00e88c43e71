// SPDX-License-Identifier: GPL-3.0-or-later
#include "apps/advice/rating_advice.hpp"

#include <algorithm>
#include <cmath>

namespace coilpull {
namespace {

constexpr double assumed_diode_V = 0.8;  // silicon; common practice, no source
constexpr double assumed_clamp_V = 40;

/// Calls step(current, its change, inductance) from the full current down to 0.
template <class Step>
void down(const DriveTable& drive, double displacement, double current_A, const Step& step) {
  constexpr int parts = 400;
  const double di = current_A / parts;
  for (int n = parts; n-- > 0;) {
    const double i = (n + 0.5) * di;
    step(std::abs(i), std::abs(di), std::max(0.0, drive.fit.function.at(displacement, i).inductance_H));
  }
}

std::vector<DyingCurrent> dying(const DriveTable& drive, double displacement, double current_A, double ohm,
                                double volts) {
  std::vector<DyingCurrent> moments = {{0, std::abs(current_A)}};
  down(drive, displacement, current_A, [&](double i, double di, double henry) {
    moments.push_back({moments.back().seconds + henry * di / (ohm * i + volts), std::max(0.0, i - di / 2)});
  });
  return moments;
}

/// Widest bar of the linkage from no current to this one. [Wb]
double linkage_bar_Wb(const DriveTable& drive, double displacement, double current_A) {
  constexpr int parts = 16;
  double bar = 0;
  for (int n = 0; n <= parts; ++n)
    bar = std::max(bar, drive.linkage_Wb(displacement, current_A * n / parts).error);
  return bar;
}

/// i lambda - W' rises by this much from no current to this one: magnetic energy brought in by the circuit.
/// It is the integral of i over the linkage: two bars of that at the full current.
double stored_J(const DriveTable& drive, double displacement, double current_A) {
  const CoenergyPoint on = drive.fit.function.at(displacement, current_A),
                      off = drive.fit.function.at(displacement, 0);
  return current_A * on.linkage_Wb - (on.coenergy_J - off.coenergy_J);
}

}  // namespace

SwitchOff switch_off(const DriveTable& drive, double displacement, double current_A, double ohm,
                     double volts) {
  const double bar_Wb = linkage_bar_Wb(drive, displacement, current_A), full_A = std::abs(current_A);
  SwitchOff end{volts, {0, 2 * bar_Wb / volts}, {0, 2 * bar_Wb * volts * full_A / (ohm * full_A + volts)}};
  down(drive, displacement, current_A, [&](double i, double di, double henry) {
    end.seconds.value += henry * di / (ohm * i + volts);
    end.taken_J.value += volts * henry * i * di / (ohm * i + volts);
  });
  return end;
}

RatingAdvice rating_advice(const DeviceFile& file, const DriveTable& drive, const HeatAdvice& heat) {
  const Supply supply = file.operation.supply.value_or(Supply{});
  const double ohm = heat.winding.ohm_at(heat.start_degC), loop_ohm = heat.source.stiff.ohm;
  RatingAdvice advice{};
  advice.current_A = heat.current_A;
  advice.supply_V = supply.voltage.value_or(heat.current_A * (ohm + loop_ohm));
  for (const double z : along(drive, 101))
    if (const double energy = stored_J(drive, z, heat.table_current_A); energy > advice.stored_J.value)
      advice.stored_J.value = energy, advice.stored_at = z;
  advice.stored_J.error =
      2 * std::abs(heat.table_current_A) * linkage_bar_Wb(drive, advice.stored_at, heat.table_current_A);
  advice.diode_assumed = !supply.diode;
  advice.clamp_assumed = !supply.clamp;
  const double diode_V = supply.diode.value_or(assumed_diode_V),
               clamp_V = supply.clamp.value_or(assumed_clamp_V);
  advice.diode = switch_off(drive, advice.stored_at, heat.table_current_A, ohm, diode_V);
  advice.clamp = switch_off(drive, advice.stored_at, heat.table_current_A, ohm, clamp_V);
  advice.with_diode = dying(drive, advice.stored_at, heat.table_current_A, ohm, diode_V);
  advice.with_clamp = dying(drive, advice.stored_at, heat.table_current_A, ohm, clamp_V);
  advice.switch_V = advice.supply_V + clamp_V;
  advice.switch_ohm = supply.switch_ohm;
  advice.square_A2s = heat.current_A * heat.current_A * heat.pulse_s;  // at most: it falls as copper warms
  if (heat.source.actual) {
    const Discharge end = discharge(heat.winding, *heat.source.actual, heat.start_degC, heat.pulse_s);
    advice.square_A2s = end.square_A2s;
    advice.capacitor_left_V = end.volts_left;
    advice.capacitor_J =
        0.5 * heat.source.actual->farad * heat.source.actual->volts * heat.source.actual->volts;
  }
  const HeatLimit& insulation = heat.limits.front();
  // From capacity dT = i^2 R dt with dR = ohm_20 alpha dT: int i^2 dt = capacity / (ohm_20 alpha) ln(R1 /
  // R0), whatever the current does meanwhile.
  advice.jammed_A2s = heat.winding.capacity / (heat.winding.ohm_20 * heat.winding.alpha_per_K) *
                      std::log(heat.winding.ohm_at(insulation.degC) / ohm);
  advice.lead_V = heat.source.lead_ohm * heat.current_A;
  advice.lead_W = advice.lead_V * heat.current_A;
  advice.switch_J = advice.switch_ohm * advice.square_A2s;
  return advice;
}

}  // namespace coilpull
