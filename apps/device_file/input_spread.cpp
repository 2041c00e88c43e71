// SPDX-License-Identifier: GPL-3.0-or-later
#include "apps/device_file/input_spread.hpp"

#include "apps/device_file/exact_text.hpp"
#include "apps/device_file/keys.hpp"

namespace coilpull {

namespace {

std::optional<double> half_range(const Table& table, const std::string& key, double most,
                                 const std::string& advice) {
  const auto value = table.find(key);
  if (!value) return std::nullopt;
  const double given = number(*value);
  if (!(given >= 0 && given <= most))
    refuse(value->place, "has to lie between 0 and " + toml_number(most) + ".", advice);
  return given;
}

}  // namespace

InputSpread read_spread(const Table& root) {
  InputSpread spread;
  const auto found = root.find("spread");
  if (!found) return spread;
  const Table table = section(*found, root.text(), "position_mm = 0.05");
  if (const auto position = find_length_m(table, "position")) {
    if (position->si < 0) refuse(position->value.place, "has to be 0 or more.", "It is half of the range.");
    spread.position_m = position->si;
  }
  if (const auto kelvin = half_range(table, "temperature_K", 200, "It is half of the range, in kelvin."))
    spread.temperature_K = *kelvin;
  if (const auto percent = half_range(table, "remanence_percent", 50, "It is half of the range, in percent."))
    spread.remanence = *percent / 100;
  if (const auto percent =
          half_range(table, "polarization_percent", 50, "It is half of the range, in percent."))
    spread.polarization = *percent / 100;
  table.refuse_unread_keys();
  return spread;
}

}  // namespace coilpull
