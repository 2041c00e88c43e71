// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include <cstddef>
#include <vector>

#include "solver/sweep/force_table.hpp"

namespace coilpull {

/// Rows of one displacement that are audited on the same meshes.
struct AuditedDisplacement {
  std::size_t displacement;       ///< its number in the table
  std::vector<std::size_t> rows;  ///< of ForceTable::rows
};

/// Up to five usable rows: the one with the largest |force|, and others spread over displacements and
/// currents. Few displacements, for each of them needs meshes of its own: two when there are currents enough.
std::vector<AuditedDisplacement> rows_to_audit(const ForceTable& table);

}  // namespace coilpull
