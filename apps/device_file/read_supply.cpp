// SPDX-License-Identifier: GPL-3.0-or-later
#include "apps/device_file/keys.hpp"
#include "apps/device_file/operation.hpp"

namespace coilpull {
namespace {

const char* const example = "voltage_V = 24";

double ohm(const Table& table, const std::string& key) {
  return find_between(table, key, 0, 1e6, "It is a resistance in ohm.").value_or(0);
}

std::optional<Lead> read_lead(const Table& table) {
  const auto length = find_length_m(table, "lead_length");
  const auto half = find_radius_m(table, "lead_");
  if (!length && !half) return std::nullopt;
  if (!length) refuse(half->value.place, "a lead needs its length, there and back: lead_length_mm.");
  if (!half) refuse(length->value.place, "a lead needs its copper: lead_diameter_mm.");
  if (!(length->si > 0)) refuse(length->value.place, "has to be greater than 0.");
  if (!(half->si > 0)) refuse(half->value.place, "has to be greater than 0.");
  return Lead{length->si, 2 * half->si};
}

void read_switch_off(const Table& table, Supply& supply) {
  supply.diode = find_between(table, "diode_V", 0, 1000, "It is the forward voltage of the diode.");
  const auto clamp = table.find("clamp_V");
  if (clamp && supply.diode)
    refuse(clamp->place, "a diode (diode_V) would hold the voltage far below the clamp.",
           "Keep one of the two.");
  supply.clamp = find_between(table, "clamp_V", 0.1, 1e5, "It is what the clamp holds across the winding.");
}

}  // namespace

std::optional<Supply> read_supply(const Table& root) {
  const auto found = root.find("supply");
  if (!found) return std::nullopt;
  const Table table = section(*found, root.text(), example);
  Supply supply;
  supply.voltage =
      find_between(table, "voltage_V", 1e-3, 1e5, "Reversing is a matter of the current's sign.");
  supply.current_limit = find_between(table, "current_limit_A", 1e-6, 1e6);
  if (const auto microfarad = find_between(table, "capacitor_uF", 1e-6, 1e9))
    supply.capacitance = *microfarad / 1e6;
  supply.series_ohm = ohm(table, "series_resistance_ohm");
  supply.switch_ohm = ohm(table, "switch_resistance_ohm");
  supply.lead = read_lead(table);
  read_switch_off(table, supply);
  table.refuse_unread_keys();
  if (supply.capacitance && !supply.voltage)
    refuse(table.find("capacitor_uF")->place, "a capacitor is charged to some voltage.",
           "Give voltage_V as well.");
  if (supply.capacitance && supply.current_limit)
    refuse(table.find("current_limit_A")->place, "a capacitor does not limit its current.",
           "Leave out current_limit_A, or capacitor_uF for a supply that does.");
  if (!supply.voltage && !supply.current_limit)
    table.refuse_missing({"voltage_V"}, "Say what the supply gives: voltage_V, current_limit_A or both.");
  return supply;
}

}  // namespace coilpull
