// SPDX-License-Identifier: GPL-3.0-or-later
#include "apps/device_file/keys.hpp"
#include "apps/device_file/operation.hpp"

namespace coilpull {
namespace {

struct ThermalClass {
  const char* letter;
  double degC;
};

/// IEC 60085, from memory.
constexpr ThermalClass classes[] = {{"Y", 90},  {"A", 105}, {"E", 120}, {"B", 130},
                                    {"F", 155}, {"H", 180}, {"N", 200}, {"R", 220}};

std::optional<double> read_thermal_class(const Table& table) {
  const auto value = table.find("thermal_class");
  if (!value) return std::nullopt;
  if (!value->node->is_string())
    return find_between(table, "thermal_class", 60, 300,
                        "It is a temperature in degC, or a letter of IEC 60085 in quotes.");
  const std::string letter = text(*value);
  std::string known;
  for (const ThermalClass& one : classes) {
    if (letter == one.letter) return one.degC;
    known += std::string(known.empty() ? "" : ", ") + one.letter;
  }
  refuse(value->place, "there is no such thermal class.", "Allowed: " + known + ", or a number of degC.");
}

}  // namespace

std::optional<Duty> read_duty(const Table& root) {
  const auto found = root.find("duty");
  if (!found) return std::nullopt;
  const Table table = section(*found, root.text(), "pulse_ms = 20");
  Duty duty;
  if (const auto strokes = find_between(table, "strokes_per_minute", 0, 1e6))
    duty.strokes_per_s = *strokes / 60;
  if (const auto pulse = find_between(table, "pulse_ms", 1e-6, 1e9)) duty.pulse = *pulse / 1000;
  if (const auto ambient = find_between(table, "ambient_degC", -100, 200)) duty.ambient_degC = *ambient;
  duty.insulation_degC = read_thermal_class(table);
  duty.bobbin_degC = find_between(table, "bobbin_limit_degC", 30, 500);
  if (const auto cooling = find_between(table, "cooling_W_per_m2_K", 0.1, 1e5))
    duty.cooling_W_per_m2_K = *cooling;
  table.refuse_unread_keys();
  if (duty.strokes_per_s && duty.pulse && *duty.strokes_per_s * *duty.pulse > 1)
    refuse(table.find("strokes_per_minute")->place,
           "so many strokes of such a pulse take more than a minute.",
           "Lower strokes_per_minute or pulse_ms.");
  for (const auto& [key, limit] :
       {std::pair{"thermal_class", duty.insulation_degC}, std::pair{"bobbin_limit_degC", duty.bobbin_degC}})
    if (limit && *limit <= duty.ambient_degC)
      refuse(table.find(key)->place, "the ambient is as hot already.", "See ambient_degC.");
  return duty;
}

}  // namespace coilpull
