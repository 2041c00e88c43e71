// SPDX-License-Identifier: GPL-3.0-or-later
#include "apps/judgement/force_grid.hpp"

#include <algorithm>
#include <cmath>

#include "apps/judgement/smooth_line.hpp"
#include "apps/output/number_text.hpp"
#include "materials/detail/nan.hpp"

namespace coilpull {
namespace {

GridAnswer unknown(std::string why) { return {std::nullopt, std::move(why)}; }

/// Known forces along one direction.
struct Nodes {
  std::vector<double> at;
  std::vector<GridForce> forces;
};

SmoothLine line_of(const Nodes& nodes, double GridForce::*which) {
  std::vector<double> values;
  for (const GridForce& force : nodes.forces) values.push_back(force.*which);
  return {nodes.at, std::move(values)};
}

double read(const Nodes& nodes, double GridForce::*which, double at) {
  for (const GridForce& force : nodes.forces)
    if (std::isnan(force.*which)) return nan;
  return line_of(nodes, which).at(at)->value;
}

/// @param direction  "displacements", "currents in drive"    @param scale  SI in the unit of the words
GridAnswer between(const Nodes& nodes, double at, const std::string& direction, double scale,
                   const std::string& unit) {
  if (nodes.at.empty()) return unknown("no usable row of the table there");
  const SmoothLine line = line_of(nodes, &GridForce::force_N);
  const auto cell = line.cell_of(at);
  if (!cell)
    return unknown("outside the table's " + direction + ", " + rounded(scale * nodes.at.front(), 6) + " to " +
                   rounded(scale * nodes.at.back(), 6) + unit);
  if (cell->is_node) return {nodes.forces[cell->below], ""};
  const auto value = line.at(at);
  if (!value) return unknown("between two " + direction + " of the table; a third is needed to read between");
  const GridForce &below = nodes.forces[cell->below], &above = nodes.forces[cell->below + 1];
  return {GridForce{value->value, std::max(below.bar_N, above.bar_N),
                    value->error + std::max(below.between_rows_N, above.between_rows_N),
                    read(nodes, &GridForce::low_N, at), read(nodes, &GridForce::high_N, at)},
          ""};
}

bool same_current(double a, double b) { return std::abs(a - b) <= 1e-9 * std::max(std::abs(a), std::abs(b)); }

}  // namespace

ForceGrid::ForceGrid(ForceTableFile table) : table_(std::move(table)) {}

GridAnswer ForceGrid::along_displacement(double displacement, std::size_t set) const {
  Nodes nodes;
  for (std::size_t i = 0; i < table_.displacements.size(); ++i) {
    const TabledForce& row = table_.at(i, set);
    if (!std::isfinite(row.force_N)) continue;
    nodes.at.push_back(table_.displacements[i]);
    nodes.forces.push_back({row.force_N, row.bar_N, 0, row.low_N, row.high_N});
  }
  return between(nodes, displacement, "displacements", 1e3, " mm");
}

GridAnswer ForceGrid::along_currents(double displacement, const std::vector<double>& currents_A,
                                     std::size_t circuit, const Sets& sets) const {
  if (circuit == currents_A.size()) return along_displacement(displacement, sets.front());
  const auto with_current = [&](double current_A) {
    Sets chosen;
    for (const std::size_t set : sets)
      if (same_current(table_.currents_A[set][circuit], current_A)) chosen.push_back(set);
    return chosen;
  };
  const Sets same = with_current(currents_A[circuit]);
  if (!same.empty()) return along_currents(displacement, currents_A, circuit + 1, same);

  std::vector<double> currents;
  for (const std::size_t set : sets) currents.push_back(table_.currents_A[set][circuit]);
  std::sort(currents.begin(), currents.end());
  currents.erase(std::unique(currents.begin(), currents.end()), currents.end());
  Nodes nodes;
  std::string why;
  for (const double current_A : currents) {
    const GridAnswer answer = along_currents(displacement, currents_A, circuit + 1, with_current(current_A));
    if (!answer.force) {
      why = answer.why;
      continue;
    }
    nodes.at.push_back(current_A);
    nodes.forces.push_back(*answer.force);
  }
  if (nodes.at.empty()) return unknown(why);
  return between(nodes, currents_A[circuit], "currents in " + table_.circuits[circuit], 1, " A");
}

GridAnswer ForceGrid::at(double displacement, const std::vector<double>& currents_A) const {
  Sets all;
  for (std::size_t k = 0; k < table_.currents_A.size(); ++k) all.push_back(k);
  return along_currents(displacement, currents_A, 0, all);
}

}  // namespace coilpull
