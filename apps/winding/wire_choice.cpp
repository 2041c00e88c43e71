// SPDX-License-Identifier: GPL-3.0-or-later
#include "apps/winding/wire_choice.hpp"

#include <algorithm>
#include <cmath>

#include "apps/device_file/winding_fit.hpp"
#include "apps/output/number_text.hpp"
#include "materials/bad_material.hpp"
#include "materials/constants.hpp"
#include "materials/detail/nan.hpp"

namespace coilpull {
namespace {

constexpr double fewest_turns = 10;

struct Size {
  std::string name;
  double bare_m;
};

std::vector<Size> all_sizes(bool by_gauge) {
  std::vector<Size> sizes;
  if (by_gauge)
    for (int gauge = 48; gauge >= 9; --gauge)
      sizes.push_back({"AWG " + std::to_string(gauge), awg_bare_diameter(gauge)});
  else
    for (const double bare : standard_wire_table().nominal_m())
      sizes.push_back({rounded(1e3 * bare, 4) + " mm", bare});
  return sizes;
}

std::size_t circuit_of(const Coil& coil, const ForceTableFile& table) {
  const auto found = std::find(table.circuits.begin(), table.circuits.end(), coil.circuit);
  if (found == table.circuits.end())
    refuse_csv({table.name}, "there is no column current_" + coil.circuit + "_A.",
               "Name the table that was solved for this device.");
  return static_cast<std::size_t>(found - table.circuits.begin());
}

/// The strongest force along the stroke at a current of the table's own winding, either polarity.
void find_force(const ForceGrid& grid, std::size_t circuit, double current_A, WireRow& row) {
  for (const double sign : {1.0, -1.0})
    for (const double displacement : grid.table().displacements) {
      std::vector<double> set(grid.table().circuits.size(), 0.0);
      set[circuit] = sign * current_A;
      const GridAnswer answer = grid.at(displacement, set);
      if (!answer.force) {
        row.why = answer.why;
        continue;
      }
      if (row.force_N && std::abs(answer.force->force_N) <= std::abs(*row.force_N)) continue;
      row.force_N = answer.force->force_N;
      row.displacement = displacement;
      row.reversed = sign < 0;
    }
}

/// Slope of the linkage at one displacement between the two currents nearest to zero, the others off. [H]
double inductance(const ForceTableFile& table, std::size_t circuit, double displacement) {
  const auto place = std::find(table.displacements.begin(), table.displacements.end(), displacement);
  if (place == table.displacements.end()) return nan;
  const auto at = static_cast<std::size_t>(place - table.displacements.begin());
  std::vector<std::pair<double, double>> points;  // current, linkage
  for (std::size_t set = 0; set < table.currents_A.size(); ++set) {
    const TabledForce& row = table.at(at, set);
    bool others_off = true;
    for (std::size_t k = 0; k < table.circuits.size(); ++k)
      others_off &= k == circuit || table.currents_A[set][k] == 0;
    if (others_off && circuit < row.linkage_Wb.size() && std::isfinite(row.linkage_Wb[circuit]))
      points.push_back({table.currents_A[set][circuit], row.linkage_Wb[circuit]});
  }
  if (points.size() < 2) return nan;
  std::sort(points.begin(), points.end(),
            [](const auto& a, const auto& b) { return std::abs(a.first) < std::abs(b.first); });
  return (points[1].second - points[0].second) / (points[1].first - points[0].first);
}

}  // namespace

std::vector<WireRow> wire_rows(const Coil& coil, const ForceGrid& grid, const WireChoice& choice) {
  const ForceTableFile& table = grid.table();
  const std::size_t circuit = circuit_of(coil, table);
  const double turn_m = volume(coil.outline) / area(coil.outline);
  std::vector<WireRow> rows;
  for (const Size& size : all_sizes(choice.by_gauge)) {
    WireRow row{};
    row.size = size.name, row.bare_m = size.bare_m;
    try {
      row.overall_m = wire_size(size.bare_m, choice.grade).overall_m;
    } catch (const BadMaterial&) {
      continue;  // outside the table of enamelled wire
    }
    row.turns = turns_held(window_of(coil), row.overall_m, coil.packing);
    if (row.turns < fewest_turns) break;
    row.wire_m = row.turns * turn_m;
    row.wire_kg = row.wire_m * mass_per_metre(choice.metal, size.bare_m);
    row.ohm = row.wire_m * resistance_per_metre(choice.metal, size.bare_m, coil.temperature_degC);
    row.ampere = choice.supply_V / (row.ohm + choice.source_ohm);
    row.ampere_turns = row.ampere * row.turns;
    row.heat_J = row.ampere * row.ampere * row.ohm * choice.pulse_s;
    row.rise_K = row.heat_J / (row.wire_kg * heat_capacity(choice.metal));
    find_force(grid, circuit, row.ampere_turns / coil.turns, row);
    const double scale = row.turns / coil.turns;
    const double henry =
        scale * scale *
        inductance(table, circuit, row.force_N ? row.displacement : table.displacements.front());
    row.time_constant_s = henry / (row.ohm + choice.source_ohm);
    rows.push_back(std::move(row));
  }
  return rows;
}

}  // namespace coilpull
