// SPDX-License-Identifier: GPL-3.0-or-later
#include "apps/device_file/wire_fit.hpp"

#include <algorithm>
#include <cmath>
#include <cstdio>

#include "apps/device_file/keys.hpp"
#include "apps/device_file/part_material.hpp"
#include "apps/device_file/winding_fit.hpp"
#include "materials/wire.hpp"

namespace coilpull {

namespace {

const char* const example = "{ diameter_mm = 0.71, insulation = \"grade 2\" }";

std::string in_mm(double metres) {
  char words[32];
  std::snprintf(words, sizeof words, "%.4g", 1000 * metres);
  return words;
}

struct Bare {
  double diameter;  ///< [m]
  Value value;      ///< as given
};

Bare read_bare(const Table& wire) {
  const auto diameter = find_length_m(wire, "diameter");
  const auto awg = wire.find("awg");
  if (awg && diameter)
    refuse(awg->place,
           "the diameter is given already, " + diameter->value.place.key + " = " +
               diameter->value.place.value + ".",
           "Keep one of the two.");
  if (!awg && !diameter)
    wire.refuse_missing({"diameter_mm", "diameter_m", "diameter_in", "awg"},
                        std::string("The conductor without its insulation, or awg; for example ") + example);
  if (diameter) {
    if (!(diameter->si > 0)) refuse(diameter->value.place, "has to be greater than 0.");
    return {diameter->si, diameter->value};
  }
  const long gauge = whole_number(*awg);
  try {
    return {awg_bare_diameter(static_cast<int>(std::clamp(gauge, -1000L, 1000L))), *awg};
  } catch (const BadMaterial& trouble) {
    refuse(*awg, trouble);
  }
}

Metal read_metal(const Table& wire) {
  const auto value = wire.find("metal");
  if (!value) return Metal::copper;
  try {
    return metal_called(text(*value));
  } catch (const BadMaterial& trouble) {
    refuse(*value, trouble);
  }
}

}  // namespace

std::optional<RoundWire> read_wire(const Table& coil) {
  const auto found = coil.find("wire");
  if (!found) return std::nullopt;
  const Table wire = inline_table(*found, coil.text(), example);
  const Bare bare = read_bare(wire);
  const auto insulation = wire.find("insulation");
  const Metal metal = read_metal(wire);
  wire.refuse_unread_keys();
  const std::string words = insulation ? text(*insulation) : "grade 2";
  if (words == "bare") return RoundWire{bare.diameter, bare.diameter, metal};
  if (words != "grade 1" && words != "grade 2")
    refuse(insulation->place, "there is no such insulation here.",
           "Allowed: \"grade 1\" and \"grade 2\", enamel of IEC 60317, or \"bare\".");
  try {
    return RoundWire{bare.diameter, wire_size(bare.diameter, insulation_grade(words)).overall_m, metal};
  } catch (const BadMaterial& trouble) {
    refuse(bare.value, trouble);
  }
}

namespace {

/// Round wires laid as closely as can be take sqrt(3)/2 of their diameter squared each (Fejes Toth,
/// Lagerungen in der Ebene, 1953): only what no winder could lay is refused.
void refuse_wire_that_passes_the_area(const Coil& coil, const Table& table) {
  const double overall = coil.wire->overall_diameter, window = area(coil.outline);
  const double most = std::floor(window / (std::sqrt(0.75) * overall * overall));
  if (coil.turns <= most) return;
  char section[32];
  std::snprintf(section, sizeof section, "%.4g", 1e6 * window);
  refuse(table.find("turns")->place,
         std::string("so many do not fit. A window of ") + section + " mm2 holds at most " +
             std::to_string(std::lround(most)) + " turns of this wire, " + in_mm(overall) +
             " mm over its insulation, however it is laid.",
         "The window is no rectangle, so only its area is compared: count rows and layers yourself.");
}

}  // namespace

void refuse_wire_that_does_not_fit(const Coil& coil, const Table& table) {
  const Box box = bounding_box(coil.outline);
  const double box_area = (box.r_to - box.r_from) * (box.z_to - box.z_from);
  if (area(coil.outline) < (1 - 1e-9) * box_area) return refuse_wire_that_passes_the_area(coil, table);
  const Window window = window_of(coil);
  const double overall = coil.wire->overall_diameter;
  const double most = turns_held(window, overall, coil.packing);
  if (coil.turns <= most) return;
  const Place turns = table.find("turns")->place;
  const std::string wire = in_mm(overall) + " mm over its insulation";
  const std::string section = in_mm(window.radial) + " x " + in_mm(window.axial) + " mm";
  const std::string advice = "For this many turns the wire may measure at most " +
                             in_mm(std::floor(1e6 * thickest_for(window, coil.turns, coil.packing)) / 1e6) +
                             " mm over its insulation.";
  if (most < 1)
    refuse(turns, "the wire, " + wire + ", is thicker than its window of " + section + ".", advice);
  if (coil.packing == Packing::rows)
    refuse(turns,
           "so many do not fit. A window of " + section + " holds " + std::to_string(std::lround(most)) +
               " turns of this wire, " + wire + ", in plain rows.",
           advice);
  refuse(turns,
         "so many do not fit. A window of " + section + " holds " + std::to_string(std::lround(most)) +
             " turns of this wire, " + wire + ", when every layer nests in the one before (" +
             std::to_string(std::lround(turns_in_rows(window, overall))) + " in plain rows).",
         advice);
}

}  // namespace coilpull
