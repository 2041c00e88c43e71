// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include <string>

#include "solver/sweep/force_table.hpp"

namespace coilpull {

/// The first row of the table, one quantity a line, each with its unit and bar.
std::string point_text(const ForceTable& table);

}  // namespace coilpull
