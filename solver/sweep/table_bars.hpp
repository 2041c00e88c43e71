// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include <vector>

#include "solver/sweep/displacement_rows.hpp"
#include "solver/sweep/force_table.hpp"

namespace coilpull {

/// Gives every row of the table its error bars (see refine/error_bar.hpp), from what was learnt at each
/// displacement (same order as the rows): what enrichment changes in every row, b and the scatter between
/// independent meshes at the anchors. Sets order_ratio, both safeties, mesh_scatter_N and tolerance_reached
/// as well.
void add_bars(const std::vector<DisplacementRows>& solved, ForceTable& table);

/// Absolute floor of what a tolerance can ask for [N].
inline constexpr double least_force_N = 1e-9;

}  // namespace coilpull
