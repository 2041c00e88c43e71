// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include <string>

#include "solver/sweep/force_table.hpp"

namespace coilpull {

/// A line a magnet: its lowest flux density and where, and how many rows drive it past its knee. Empty
/// without magnets.
std::string magnet_lines(const ForceTable& table);

}  // namespace coilpull
