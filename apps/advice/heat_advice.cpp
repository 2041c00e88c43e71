// SPDX-License-Identifier: GPL-3.0-or-later
#include "apps/advice/heat_advice.hpp"

#include <algorithm>
#include <cmath>

#include "apps/winding/winding_sheet.hpp"
#include "materials/constants.hpp"

namespace coilpull {
namespace {

constexpr double assumed_pulse_s = 0.01;
constexpr double assumed_class_degC = 130;  // B of IEC 60085, from memory

struct Lump {
  HeatedWinding winding;
  double conductor_m2;
};

/// The outer side and both ends of the section, the bore left out: it looks at steel.
double open_surface(const Coil& coil) {
  const Box box = bounding_box(coil.outline);
  return 2 * pi * box.r_to * (box.z_to - box.z_from) +
         2 * pi * (box.r_to * box.r_to - box.r_from * box.r_from);
}

std::optional<Lump> lump_of(const Device& device, const std::string& circuit) {
  std::optional<Lump> lump;
  for (const Coil& coil : device.coils) {
    if (coil.circuit != circuit) continue;
    const auto sheet = winding_sheet(coil);
    if (!sheet) return std::nullopt;
    const double bare = coil.wire->bare_diameter;
    const HeatedWinding one = heated_winding(coil.wire->metal, bare, sheet->wire_m, open_surface(coil));
    if (!lump) {
      lump = Lump{one, pi * bare * bare / 4};
      continue;
    }
    lump->winding.ohm_20 += one.ohm_20;
    lump->winding.capacity += one.capacity;
    lump->winding.surface += one.surface;
    lump->conductor_m2 = std::min(lump->conductor_m2, pi * bare * bare / 4);
  }
  return lump;
}

Inductance inductance_at(const DriveTable& drive, double displacement, double current_A, double loop_ohm) {
  const Measured off = drive.linkage_Wb(displacement, 0), on = drive.linkage_Wb(displacement, current_A),
                 full = drive.inductance_H(displacement, current_A);
  return {displacement,
          {(on.value - off.value) / current_A, (on.error + off.error) / std::abs(current_A)},
          drive.inductance_H(displacement, 0),
          full,
          {full.value / loop_ohm, full.error / loop_ohm}};
}

/// The temperature from which a pulse just reaches the limit; none: a pulse from the ambient passes it.
std::optional<double> start_for(const HeatAdvice& advice, double limit_degC, double ambient_degC) {
  const auto end = [&](double degC) { return degC + pulse_heat_J(advice, degC) / advice.winding.capacity; };
  if (end(ambient_degC) > limit_degC) return std::nullopt;
  double low = ambient_degC, high = limit_degC;
  for (int i = 0; i < 60; ++i) {
    const double middle = 0.5 * (low + high);
    (end(middle) > limit_degC ? high : low) = middle;
  }
  return low;
}

HeatLimit limit_of(const HeatAdvice& advice, const std::string& name, double degC, double ambient_degC) {
  HeatLimit limit{
      name, degC, heating_time_s(advice.winding, advice.source.stiff, advice.start_degC, degC), {}, {}};
  if (advice.source.actual)
    limit.actual_s = heating_time_s(advice.winding, *advice.source.actual, advice.start_degC, degC);
  if (const auto start = start_for(advice, degC, ambient_degC); start && *start > ambient_degC) {
    const double watt = advice.cooling_W_per_m2_K * advice.winding.surface * (*start - ambient_degC);
    limit.rest_s = std::max(0.0, pulse_heat_J(advice, *start) / watt - advice.pulse_s);
  }
  return limit;
}

}  // namespace

PowerSource power_source(const DeviceFile& file, double strongest_A) {
  PowerSource source{};
  if (!file.operation.supply) {
    source.stiff.limit_A = strongest_A;
    source.assumed = true;
    return source;
  }
  const Supply& supply = *file.operation.supply;
  if (supply.lead)
    source.lead_ohm = supply.lead->length * resistance_per_metre(Metal::copper, supply.lead->diameter, 20);
  source.stiff = {supply.voltage, supply.current_limit,
                  supply.series_ohm + supply.switch_ohm + source.lead_ohm};
  if (supply.capacitance && supply.voltage)
    source.actual = RunningDown{*supply.voltage, *supply.capacitance, source.stiff.ohm};
  return source;
}

double first_current_A(const PowerSource& source, const HeatedWinding& winding, double degC) {
  return source.stiff.current_A(winding.ohm_at(degC));
}

double hot_current_A(const HeatAdvice& advice) {
  return first_current_A(advice.source, advice.winding, advice.limits.front().degC);
}

double pulse_heat_J(const HeatAdvice& advice, double degC) {
  if (advice.source.actual)
    return discharge(advice.winding, *advice.source.actual, degC, advice.pulse_s).heat_J;
  return advice.winding.capacity *
         (heated_degC(advice.winding, advice.source.stiff, degC, advice.pulse_s) - degC);
}

std::optional<HeatAdvice> pulse_heat(const DeviceFile& file, const std::string& circuit, double strongest_A) {
  const auto lump = lump_of(file.device, circuit);
  if (!lump) return std::nullopt;
  const Duty duty = file.operation.duty.value_or(Duty{});
  HeatAdvice advice{};
  advice.winding = lump->winding;
  advice.conductor_m2 = lump->conductor_m2;
  advice.source = power_source(file, strongest_A);
  advice.start_degC = duty.ambient_degC;
  advice.current_A = first_current_A(advice.source, advice.winding, advice.start_degC);
  advice.watt = advice.current_A * advice.current_A * advice.winding.ohm_at(advice.start_degC);
  advice.pulse_s = duty.pulse.value_or(assumed_pulse_s);
  advice.pulse_assumed = !duty.pulse;
  advice.cooling_W_per_m2_K = duty.cooling_W_per_m2_K;
  advice.pulse_J = pulse_heat_J(advice, advice.start_degC);
  advice.pulse_degC = advice.start_degC + advice.pulse_J / advice.winding.capacity;
  advice.strokes_per_s = duty.strokes_per_s;
  if (duty.strokes_per_s)
    advice.steady_degC = steady_degC(
        advice.winding, [&](double degC) { return pulse_heat_J(advice, degC); }, *duty.strokes_per_s,
        duty.cooling_W_per_m2_K, duty.ambient_degC);
  return advice;
}

std::optional<HeatAdvice> heat_advice(const DeviceFile& file, const DriveTable& drive) {
  std::optional<HeatAdvice> found = pulse_heat(file, drive.circuit, drive.strongest_A());
  if (!found) return std::nullopt;
  HeatAdvice& advice = *found;
  const Duty duty = file.operation.duty.value_or(Duty{});
  advice.table_current_A = std::min(advice.current_A, drive.strongest_A());
  if (advice.table_current_A > drive.most_A()) advice.table_current_A = -advice.table_current_A;
  for (const double z : along(drive, 3))
    advice.inductances.push_back(
        inductance_at(drive, z, advice.table_current_A,
                      advice.winding.ohm_at(advice.start_degC) + advice.source.stiff.ohm));
  advice.class_assumed = !duty.insulation_degC;
  const double class_degC = duty.insulation_degC.value_or(assumed_class_degC);
  advice.limits.push_back(limit_of(advice, "insulation", class_degC, duty.ambient_degC));
  if (duty.bobbin_degC)
    advice.limits.push_back(limit_of(advice, "bobbin", *duty.bobbin_degC, duty.ambient_degC));
  return found;
}

}  // namespace coilpull
