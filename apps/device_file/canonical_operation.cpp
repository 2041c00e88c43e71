// SPDX-License-Identifier: GPL-3.0-or-later
#include "apps/device_file/exact_text.hpp"
#include "apps/device_file/operation.hpp"
#include "apps/device_file/read_direction.hpp"

namespace coilpull {
namespace {

std::string line(const std::string& key, double value) { return key + " = " + toml_number(value) + "\n"; }

/// A value that its key divides by `over`.
std::string line(const std::string& key, const std::optional<double>& value, double over = 1) {
  return value ? line(key, before_division(*value, over).value_or(*value * over)) : "";
}

std::string supply_text(const Supply& supply) {
  std::string words =
      "\n[supply]\n" + line("voltage_V", supply.voltage) + line("current_limit_A", supply.current_limit) +
      line("capacitor_uF", supply.capacitance, 1e6) + line("series_resistance_ohm", supply.series_ohm) +
      line("switch_resistance_ohm", supply.switch_ohm);
  if (supply.lead)
    words += toml_length("lead_length", supply.lead->length) + "\n" +
             toml_length("lead_diameter", supply.lead->diameter) + "\n";
  return words + line("diode_V", supply.diode) + line("clamp_V", supply.clamp);
}

std::string duty_text(const Duty& duty) {
  return "\n[duty]\n" + line("strokes_per_minute", duty.strokes_per_s, 60) +
         line("pulse_ms", duty.pulse, 1000) + line("ambient_degC", duty.ambient_degC) +
         line("thermal_class", duty.insulation_degC) + line("bobbin_limit_degC", duty.bobbin_degC) +
         line("cooling_W_per_m2_K", duty.cooling_W_per_m2_K);
}

std::string mechanics_text(const Mechanics& mechanics) {
  std::string words = "\n[mechanics]\n" + line("mass_g", mechanics.mass, 1000) +
                      line("dry_friction_N", mechanics.dry_friction) +
                      line("viscous_friction_N_s_per_m", mechanics.viscous_friction) +
                      line("slope_deg", mechanics.slope_deg) + line("load_N", mechanics.load);
  if (mechanics.spring)
    words +=
        "spring = { rate_N_per_mm = " +
        toml_number(before_division(mechanics.spring->rate, 0.001).value_or(mechanics.spring->rate * 0.001)) +
        ", " + toml_length("free_at", mechanics.spring->free_at) + " }\n";
  if (mechanics.stops)
    words += "stops = { " + toml_length("from", mechanics.stops->from) + ", " +
             toml_length("to", mechanics.stops->to) +
             ", restitution = " + toml_number(mechanics.stops->restitution) + " }\n";
  if (!mechanics.hold_at.empty()) words += toml_lengths("hold_at", mechanics.hold_at) + "\n";
  return words;
}

std::string threshold_text(const std::string& key, const Threshold& threshold) {
  return key + " = { min = " + toml_number(threshold.least) +
         ", typical = " + toml_number(threshold.typical) + ", max = " + toml_number(threshold.most) + " }\n";
}

}  // namespace

std::string canonical_operation(const Operation& operation) {
  return (operation.supply ? supply_text(*operation.supply) : "") +
         (operation.duty ? duty_text(*operation.duty) : "") +
         (operation.mechanics ? mechanics_text(*operation.mechanics) : "");
}

std::string canonical_switching(const SwitchingSensor& sensor) {
  const bool latching = sensor.kind == SwitchingSensor::Kind::latching;
  return "direction = " + as_toml({sensor.direction_r, sensor.direction_z, sensor.angle_deg}) +
         "\nkind = " + (latching ? "\"latching\"" : "\"unipolar\"") + "\n" +
         threshold_text("operate_T", sensor.operate) + threshold_text("release_T", sensor.release) +
         toml_length("place_tolerance", sensor.place_tolerance) + "\n" + line("delay_us", sensor.delay, 1e6);
}

}  // namespace coilpull
