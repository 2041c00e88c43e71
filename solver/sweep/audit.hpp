// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include <functional>

#include "solver/device/device.hpp"
#include "solver/sweep/crew.hpp"
#include "solver/sweep/energy_audit.hpp"
#include "solver/sweep/force_table.hpp"

namespace coilpull {

/// How the audit meshes and steps. Longer steps weigh the scatter of meshes less and bends of the energy
/// more. Measured on the three devices of data/devices, residual gap of 0.05 mm included: with the defaults
/// the audit is unsure by 0.1 to 0.9 bars; finer corners gain little, coarser ones lose.
struct AuditOptions {
  double per_bar = 1.0;        ///< corners as for this times the widest bar of the table, see resolution_for
  double fineness = 0.9;       ///< of all else, see Resolution; a value that no table has
  double per_clearance = 0.2;  ///< step <= this * clearance: two steps leave three fifths of it
  double per_radius = 0.1;     ///< step <= this * smallest outer radius of a core or magnet
  double finer = 1.7;          ///< fineness goes up by this where the audit is less sure than a bar, once
  /// Step in current, of the circuit's largest current in the table: on one mesh nothing scatters, and the
  /// knee of the steel may lie far below that current.
  double per_current = 0.001;
};

/// Holds up to five rows of a finished table against the coenergy of independent meshes: four, two steps
/// before to two steps behind the row's displacement, for the force, one at it for the linkages. All have the
/// table's half circle. Does not depend on the number of threads. What cannot be meshed or solved is told in
/// the row, as is what a stop request left undone. Never throws for numerics.
EnergyAudit audit(const Device& device, const ForceTable& table, Crew& crew,
                  const std::function<bool()>& stop_requested = {}, const AuditOptions& options = {});

}  // namespace coilpull
