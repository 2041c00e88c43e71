// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include <string>

#include "solver/sweep/force_table.hpp"

namespace coilpull {

/// The whole of force_table.csv: RFC 4180 (comma, CRLF, header line, quotes only where needed), one row a
/// point, numbers in the shortest form that reads back as the same double, "NaN" for what is not usable.
/// Lengths are in mm; the other units are those of the column names.
std::string csv_text(const ForceTable& table);

}  // namespace coilpull
