// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include <string>

#include "solver/sweep/force_table.hpp"

namespace coilpull {

/// "Energy audit: worst mismatch 0.4 bars over 5 rows ..." and what was left out, in lines.
std::string audit_line(const ForceTable& table);

/// A warning for every audited number that misses the energy by more than bars and audit leave open, with its
/// row; empty: there is none.
std::string audit_warnings(const ForceTable& table);

}  // namespace coilpull
