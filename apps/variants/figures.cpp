// SPDX-License-Identifier: GPL-3.0-or-later
#include "apps/variants/figures.hpp"

#include <algorithm>
#include <cmath>

#include "apps/comparison/compare.hpp"
#include "apps/comparison/row_weights.hpp"
#include "apps/output/number_text.hpp"
#include "apps/winding/winding_sheet.hpp"
#include "meshing/outline.hpp"
#include "solver/heat/winding_heat.hpp"

namespace coilpull {
namespace {

bool usable(const Measurement& row) { return std::isfinite(row.force_N.value); }

/// Of two with bars, the one with the larger value.
void keep_larger(std::map<std::string, Measured>& figures, const std::string& name, Measured value) {
  const auto [place, is_new] = figures.emplace(name, value);
  if (!is_new && value.value > place->second.value) place->second = value;
}

/// What is a choice of rows and a weight for each: the same that the slopes of these figures are taken from.
void add_forces(const ForceTable& table, Figures& figures) {
  for (const std::string& name : force_figures())
    if (const auto weights = row_weights(name, table)) figures[name] = weighted(*weights, table);
}

void add_limits_of_parts(const ForceTable& table, Figures& figures) {
  for (const Measurement& row : table.rows) {
    if (!usable(row)) continue;
    for (const MagnetState& magnet : row.magnets)
      if (std::isfinite(magnet.past_knee))
        keep_larger(figures, "past_knee_percent", {100 * magnet.past_knee, 0});
    for (const double b : row.b_p99_T)
      if (std::isfinite(b)) keep_larger(figures, "core_T", {b, 0});
    for (const double current : row.currents_A) keep_larger(figures, "current_A", {std::abs(current), 0});
  }
}

/// Strongest current of each circuit through the resistances in it. Only when every coil states its wire.
void add_winding(const Device& device, Figures& figures) {
  double mass_kg = 0, heat_W = 0, volume_m3 = 0, rise_K_per_s = 0;
  bool known = !device.coils.empty();
  for (const Coil& coil : device.coils) {
    volume_m3 += volume(coil.outline);
    const auto sheet = winding_sheet(coil);
    if (!sheet) {
      known = false;
      continue;
    }
    const auto circuit = std::find(device.circuits.begin(), device.circuits.end(), coil.circuit);
    const auto number = static_cast<std::size_t>(circuit - device.circuits.begin());
    double strongest = 0;
    for (const auto& set : device.currents_A) strongest = std::max(strongest, std::abs(set.at(number)));
    mass_kg += sheet->wire_kg;
    const double own_W = sheet->resistance_ohm * strongest * strongest;
    heat_W += own_W;
    const HeatedWinding winding =
        heated_winding(coil.wire->metal, coil.wire->bare_diameter, sheet->wire_m, 0);
    rise_K_per_s = std::max(rise_K_per_s, own_W / winding.capacity);
  }
  if (!device.coils.empty()) figures["winding_cm3"] = {1e6 * volume_m3, 0};
  if (!known) return;
  figures["wire_g"] = {1e3 * mass_kg, 0};
  figures["heat_W"] = {heat_W, 0};
  figures["rise_K_per_s"] = {rise_K_per_s, 0};
}

void add_size(const Device& device, Figures& figures) {
  double z_from = HUGE_VAL, z_to = -HUGE_VAL, r_to = 0, steel_m3 = 0, magnet_m3 = 0;
  const auto reach = [&](const Outline& outline) {
    const Box box = bounding_box(outline);
    z_from = std::min(z_from, box.z_from), z_to = std::max(z_to, box.z_to), r_to = std::max(r_to, box.r_to);
  };
  for (const Core& core : device.cores) reach(core.outline), steel_m3 += volume(core.outline);
  for (const Coil& coil : device.coils) reach(coil.outline);
  for (const Magnet& magnet : device.magnets) reach(magnet.outline), magnet_m3 += volume(magnet.outline);
  figures["length_mm"] = {in_mm(z_to - z_from), 0};
  figures["diameter_mm"] = {in_mm(2 * r_to), 0};
  figures["core_cm3"] = {1e6 * steel_m3, 0};
  figures["magnet_cm3"] = {1e6 * magnet_m3, 0};
}

}  // namespace

Figures figures_of(const Device& device, const ForceTable& table) {
  Figures figures;
  add_forces(table, figures);
  if (const auto amperes = full_current(device, table)) figures["full_A"] = {*amperes, 0};
  add_limits_of_parts(table, figures);
  add_winding(device, figures);
  add_size(device, figures);
  return figures;
}

}  // namespace coilpull
