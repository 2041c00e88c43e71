// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include <cmath>
#include <limits>
#include <utility>

#include "solver/sweep/force_table.hpp"

/// A small table with invented round numbers: a plunger that is pushed back to 2 mm with the current off,
/// 5 displacements of 0 to 4 mm, currents -1, 0, 1 A. Force = 2 (2 - x) + 3 I for x in mm and I in A, so the
/// force changes sign at x = 2 + 1.5 I: 0.5, 2 and 3.5 mm.
inline coilpull::ForceTable plunger_table() {
  coilpull::ForceTable table;
  table.circuits = {"drive"};
  table.cores = {"sleeve"};
  table.sensors = {"exit"};
  table.currents_per_displacement = 3;
  for (int x_mm = 0; x_mm <= 4; ++x_mm)
    for (int current_A = -1; current_A <= 1; ++current_A) {
      coilpull::Measurement row{};
      row.displacement = 1e-3 * x_mm;
      row.clearance = 1e-3;
      row.currents_A = {static_cast<double>(current_A)};
      row.force_N = {2.0 * (2 - x_mm) + 3.0 * current_A, 0.01};
      row.linkage_Wb = {{1e-3 * current_A, 1e-7}};
      row.coenergy_J = 5e-4 * current_A * current_A;
      row.b_p99_T = {1.25};
      row.sensors = {{-0.01, 0.02}};
      row.newton_steps = 3;
      table.rows.push_back(row);
    }
  table.peak_force_N = 7;
  table.tolerance_asked = 2e-3;
  table.tolerance_reached = 0.01 / 7;
  table.order = 3;
  table.triangles_least = 300;
  table.triangles_most = 320;
  table.unknowns_most = 1500;
  return table;
}

/// The same with two audited rows: force and linkage half a bar off in the first, three bars in the second.
inline coilpull::ForceTable audited_plunger_table() {
  coilpull::ForceTable table = plunger_table();
  table.order_ratio = 0.25;
  table.safety_where_rough = 1.5;
  table.safety_where_smooth = 0.3;
  table.mesh_scatter_N = 1e-3;
  table.audit.left_out.clear();
  for (const auto& [row, bars] : {std::pair<std::size_t, double>{2, 0.5}, {12, 3.0}}) {
    const coilpull::Measurement& of_table = table.rows[row];
    table.audit.rows.push_back({row,
                                1e-4,
                                {of_table.force_N.value + bars * 0.01, 1e-5},
                                bars,
                                {0.02},
                                {{of_table.linkage_Wb[0].value + bars * 1e-7, 1e-10}},
                                {bars},
                                {}});
  }
  return table;
}

/// The same with its last row lost: no number in it is usable.
inline coilpull::ForceTable plunger_table_with_a_lost_row() {
  coilpull::ForceTable table = plunger_table();
  const double nan = std::numeric_limits<double>::quiet_NaN();
  coilpull::Measurement& row = table.rows.back();
  row.force_N = {nan, nan};
  row.linkage_Wb.clear();
  row.b_p99_T.clear();
  row.sensors.clear();
  row.coenergy_J = nan;
  row.status = coilpull::RowStatus::not_converged;
  row.why = "no step of Newton's method lowers the energy";
  return table;
}
