// SPDX-License-Identifier: GPL-3.0-or-later
#include "apps/output/winding_text.hpp"

#include <cmath>
#include <cstdio>

#include "apps/output/number_text.hpp"
#include "apps/winding/winding_sheet.hpp"

namespace coilpull {
namespace {

std::string line(std::string label, const std::string& words) {
  label.resize(24, ' ');
  return "  " + label + words + "\n";
}

std::string bobbin_lines(const Coil& coil) {
  if (!coil.bobbin) return "";
  const Box space = bounding_box(coil.bobbin->space);
  return line("drawn space",
              millimetres(space.r_to - space.r_from, 5) + " x " + millimetres(space.z_to - space.z_from, 5)) +
         line("bobbin", "wall " + millimetres(coil.bobbin->wall, 5) + ", flanges " +
                            millimetres(coil.bobbin->flange, 5) + " each, clearance " +
                            millimetres(coil.bobbin->clearance, 5) + ", film " +
                            millimetres(coil.bobbin->layer_film, 5) + " between layers");
}

std::string sheet_text(const Coil& coil, const WindingSheet& sheet) {
  std::string text = "Winding sheet of coil " + coil.name + ":\n" + bobbin_lines(coil);
  text +=
      line("window", millimetres(sheet.window.radial, 5) + " radial x " + millimetres(sheet.window.axial, 5) +
                         " axial" + (sheet.is_rectangle ? "" : " (the box around it; no rectangle)"));
  text +=
      line("wire", millimetres(coil.wire->bare_diameter, 5) + " " + word_for(coil.wire->metal) +
                       ", at most " + millimetres(coil.wire->overall_diameter, 5) + " over its insulation");
  if (sheet.is_rectangle) {
    text += line("turns", rounded(sheet.turns, 6) + " asked; " + rounded(sheet.in_rows, 6) +
                              " fit in straight rows, " + rounded(sheet.nested, 6) + " nested");
    text += line("layers", rounded(sheet.layers, 6) + " of " + rounded(sheet.turns_a_layer, 6) + " turns");
  }
  text += line("mean turn", millimetres(sheet.turn_m, 5));
  text += line("wire to buy", rounded(sheet.wire_m, 4) + " m, " + rounded(1e3 * sheet.wire_kg, 4) +
                                  " g without its insulation; leads come on top");
  text += line("resistance",
               rounded(sheet.resistance_20_ohm, 4) + " ohm at 20 degC" +
                   (coil.temperature_degC == 20 ? ""
                                                : ", " + rounded(sheet.resistance_ohm, 4) + " ohm at " +
                                                      rounded(coil.temperature_degC, 4) + " degC"));
  return text + line("conductor fills", rounded(100 * sheet.fill, 3) + " % of the window");
}

std::string column(const std::string& words, std::size_t width) {
  return std::string(words.size() < width ? width - words.size() : 1, ' ') + words;
}

std::string column(double value, int digits, std::size_t width) {
  return column(std::isfinite(value) ? rounded(value, digits) : "-", width);
}

}  // namespace

std::string winding_sheets_text(const Device& device) {
  std::string text;
  for (const Coil& coil : device.coils)
    if (const auto sheet = winding_sheet(coil)) text += sheet_text(coil, *sheet);
  return text;
}

std::string wire_choice_text(const Coil& coil, const WireChoice& choice, const std::vector<WireRow>& rows) {
  std::string text = "Coil " + coil.name + " wound full of each wire, " + word_for(choice.metal) + " at " +
                     rounded(coil.temperature_degC, 4) + " degC, " + rounded(choice.supply_V, 4) +
                     " V behind " + rounded(choice.source_ohm, 3) + " ohm, pulses of " +
                     rounded(1e3 * choice.pulse_s, 4) + " ms:\n";
  text +=
      "      wire   turns       ohm         A   A turns   peak N   at mm  heat J  rise K   L/R ms       m    "
      "   g\n";
  for (const WireRow& row : rows)
    text += column(row.size, 10) + column(row.turns, 5, 8) + column(row.ohm, 4, 10) +
            column(row.ampere, 3, 10) + column(row.ampere_turns, 4, 10) +
            (row.force_N ? column((row.reversed ? "-I " : "") + rounded(*row.force_N, 3), 9) +
                               column(in_mm(row.displacement), 4, 8)
                         : column("-", 9) + column("-", 8)) +
            column(row.heat_J, 3, 8) + column(row.rise_K, 3, 8) + column(1e3 * row.time_constant_s, 3, 9) +
            column(row.wire_m, 3, 8) + column(1e3 * row.wire_kg, 3, 8) + "\n";
  std::string beyond;
  for (const WireRow& row : rows)
    if (!row.force_N && beyond.empty()) beyond = row.why;
  if (!beyond.empty()) text += "-: not told by the table: " + beyond + ".\n";
  return text +
         "-I: the current reversed. The force is that of the current once it has risen, some three L/R "
         "after\n"
         "switching on; heat is as if it stood at once, and none flows away. Hot windings burn skin and "
         "lose\n"
         "their enamel; a pulse that repeats adds up.\n";
}

std::string wire_choice_csv(const std::vector<WireRow>& rows) {
  std::string text =
      "wire,bare_mm,overall_mm,turns,resistance_ohm,current_A,ampere_turns_A,peak_force_N,displacement_mm,"
      "reversed,"
      "heat_J,rise_K,time_constant_ms,wire_m,wire_g\r\n";
  for (const WireRow& row : rows) {
    text += row.size;
    const double force = row.force_N.value_or(std::nan(""));
    for (const double value : {in_mm(row.bare_m), in_mm(row.overall_m), row.turns, row.ohm, row.ampere,
                               row.ampere_turns, force, row.force_N ? in_mm(row.displacement) : force})
      text += "," + shortest(as_written(value));
    text += row.reversed ? ",yes" : ",no";
    for (const double value :
         {row.heat_J, row.rise_K, 1e3 * row.time_constant_s, row.wire_m, 1e3 * row.wire_kg})
      text += "," + shortest(as_written(value));
    text += "\r\n";
  }
  return text;
}

}  // namespace coilpull
