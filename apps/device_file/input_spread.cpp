// SPDX-License-Identifier: GPL-3.0-or-later
#include "apps/device_file/input_spread.hpp"

#include "apps/device_file/keys.hpp"

namespace coilpull {

InputSpread read_spread(const Table& root) {
  InputSpread spread;
  const auto found = root.find("spread");
  if (!found) return spread;
  const Table table = section(*found, root.text(), "position_mm = 0.05");
  if (const auto position = find_length_m(table, "position")) {
    if (position->si < 0) refuse(position->value.place, "has to be 0 or more.", "It is half of the range.");
    spread.position_m = position->si;
  }
  if (const auto kelvin = find_between(table, "temperature_K", 0, 200, "It is half of the range, in kelvin."))
    spread.temperature_K = *kelvin;
  if (const auto percent =
          find_between(table, "remanence_percent", 0, 50, "It is half of the range, in percent."))
    spread.remanence = *percent / 100;
  if (const auto percent =
          find_between(table, "polarization_percent", 0, 50, "It is half of the range, in percent."))
    spread.polarization = *percent / 100;
  table.refuse_unread_keys();
  return spread;
}

}  // namespace coilpull
