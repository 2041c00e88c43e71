// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include <string>
#include <vector>

#include "solver/sweep/force_table.hpp"

namespace coilpull {

/// What one input does to the force at the ends of its range.
struct InputEffect {
  std::string words;
  std::vector<ForceTable> ends;  ///< rows as in the table
};

/// Sets Measurement::spread of every row: the force less all that any input takes from it at either end of
/// its range, and plus all that any adds. That is the worst case, everything wrong at once in the worst way;
/// inputs are taken one at a time, so that what two of them do together beyond the sum is not seen.
void add_spread(ForceTable& table, const std::vector<InputEffect>& effects);

/// The inputs by what they do to the strongest force of the table; for the screen.
std::string spread_text(const ForceTable& table, const std::vector<InputEffect>& effects);

}  // namespace coilpull
