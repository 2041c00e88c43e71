// SPDX-License-Identifier: GPL-3.0-or-later
#include "apps/winding/winding_sheet.hpp"

#include <cmath>

#include "materials/constants.hpp"

namespace coilpull {

std::optional<WindingSheet> winding_sheet(const Coil& coil) {
  if (!coil.wire) return std::nullopt;
  const double bare = coil.wire->bare_diameter, overall = coil.wire->overall_diameter;
  WindingSheet sheet{};
  sheet.window = window_of(coil);
  const double box = sheet.window.radial * sheet.window.axial, section = area(coil.outline);
  sheet.is_rectangle = std::abs(section - box) < 1e-9 * box;
  sheet.turns = coil.turns;
  sheet.in_rows = turns_in_rows(sheet.window, overall);
  sheet.nested = turns_nested(sheet.window, overall);
  sheet.turns_a_layer = turns_in_rows({overall, sheet.window.axial}, overall);
  sheet.layers = std::ceil(coil.turns / sheet.turns_a_layer);
  sheet.turn_m = volume(coil.outline) / section;
  sheet.wire_m = coil.turns * sheet.turn_m;
  sheet.wire_kg = sheet.wire_m * mass_per_metre(coil.wire->metal, bare);
  sheet.resistance_20_ohm = sheet.wire_m * resistance_per_metre(coil.wire->metal, bare, 20);
  sheet.resistance_ohm = sheet.wire_m * resistance_per_metre(coil.wire->metal, bare, coil.temperature_degC);
  sheet.fill = coil.turns * pi * bare * bare / 4 / section;
  return sheet;
}

}  // namespace coilpull
