// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include <string>
#include <vector>

#include "solver/sweep/force_table.hpp"

namespace coilpull {

/// What a person can act on, in plain words: strongest push and pull, force with the current off, where the
/// force changes sign, what polarity does, how good the numbers are, which rows failed and why; then the
/// limits and cautions, once. moving: names of the parts that the displacement shifts.
std::string summary_text(const ForceTable& table, const std::vector<std::string>& moving);

/// Only the rows that are not `ok`, by status with their reasons, and the warnings of the energy audit; empty
/// without any.
std::string trouble_text(const ForceTable& table);

/// "at 2 mm, drive = 6 A".
std::string where(const ForceTable& table, const Measurement& row);

/// "drive = 6 A", or "a = 6 A, b = 0 A".
std::string currents_text(const std::vector<std::string>& circuits, const std::vector<double>& currents_A);

/// Strong magnets, hot windings, stored energy.
extern const char* const cautions;

}  // namespace coilpull
