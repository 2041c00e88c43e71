// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include <cstddef>
#include <string>
#include <vector>

#include "solver/measure/measurement.hpp"

namespace coilpull {

/// One row of a table held against the coenergy W' of independent meshes: F = dW'/dz at fixed currents and
/// linkage_k = dW'/di_k at fixed displacement, which the exact field obeys. `error` of a slope is what the
/// audit itself may miss: orders, scatter of its meshes, length of its steps. NaN: not audited, `why` tells.
struct AuditedRow {
  std::size_t row;                      ///< of ForceTable::rows
  double step;                          ///< in displacement [m]
  Measured force_N;                     ///< dW'/dz
  double force_bars;                    ///< |force of the row - dW'/dz| over hypot(bar of the row, error)
  std::vector<double> current_steps_A;  ///< one per circuit
  std::vector<Measured> linkage_Wb;     ///< dW'/di, one per circuit; rows take turns with the circuits
  std::vector<double> linkage_bars;     ///< like force_bars, one per circuit
  std::string why = {};
};

/// The audited rows of a table.
struct EnergyAudit {
  std::vector<AuditedRow> rows = {};
  std::string left_out = "not asked for";  ///< what was not audited, and why; empty: nothing was left out
};

/// Widest mismatch of force and linkages in one row; NaN when nothing was audited.
double worst_bars(const AuditedRow& row);

}  // namespace coilpull
