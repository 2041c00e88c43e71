// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include "apps/input/force_table_file.hpp"
#include "solver/sweep/force_table.hpp"

namespace coilpull {

/// The rows as the solver left them, as far as the file has them: displacement, currents, force, linkages,
/// coenergy, sensors. No meshes, no parts.
ForceTable solved_rows(const ForceTableFile& file);

}  // namespace coilpull
