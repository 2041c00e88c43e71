// SPDX-License-Identifier: GPL-3.0-or-later
#include "apps/commands/write_cells.hpp"

#include <algorithm>
#include <cmath>
#include <cstdio>

#include "apps/commands/stop_signal.hpp"
#include "apps/output/findings.hpp"
#include "apps/output/number_text.hpp"
#include "apps/output/safe_file.hpp"
#include "apps/output/summary.hpp"
#include "apps/output/vtu_file.hpp"
#include "solver/field/sample.hpp"

namespace coilpull {
namespace {

/// Position of the strongest row's set among the currents of a displacement.
std::size_t strongest_set(const ForceTable& table) {
  std::size_t best = 0;
  double largest = -1;
  for (std::size_t i = 0; i < table.rows.size(); ++i)
    if (const double size = std::abs(table.rows[i].force_N.value); size > largest) largest = size, best = i;
  return best % table.currents_per_displacement;
}

}  // namespace

void write_cells(const std::filesystem::path& folder, const std::filesystem::path& place,
                 const Device& device, const SolvedPoint& solved, const Measurement& row) {
  const int order = solved.order;  // as many points as the solution has freedoms
  VtuCells cells = vtu_cells(sample(solved.field, order), solved.problem, solved.regions, row.currents_A);
  cells.displacement = row.displacement;
  cells.title = device.title + ", " + currents_text(device.circuits, row.currents_A);
  write_vtu(folder, place, cells);
}

Paths write_cells_along_stroke(const std::filesystem::path& folder, const Device& device,
                               const ForceTable& table) {
  if (table.rows.empty()) return {};
  const std::size_t set = strongest_set(table);
  Mesher mesher;
  std::vector<VtuStep> steps;
  for (std::size_t i = 0; i < displacement_count(table) && !stop_was_asked(); ++i) {
    const Measurement& row = table.rows[i * table.currents_per_displacement + set];
    const auto solved = solve_point(device, row.displacement, row.currents_A, table.order, mesher);
    if (!solved) continue;
    char name[64];
    std::snprintf(name, sizeof name, "vtu/field_%03zu.vtu", i);
    write_cells(folder, name, device, *solved, row);
    steps.push_back({in_mm(row.displacement), name});
  }
  write_safely(folder / "force_table.pvd", pvd_text(steps));
  return {folder / "force_table.pvd"};
}

}  // namespace coilpull
