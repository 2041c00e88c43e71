// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include <string>

#include "apps/output/origin.hpp"
#include "solver/sweep/force_table.hpp"

namespace coilpull {

/// What every table and report says about the reach of its numbers.
inline constexpr const char* limits_of_the_table =
    "On axis, one coil or one set of coils, statics: no tilt or sideways shift, no eddy currents, no "
    "hysteresis. The error bar is numerical only; material, size and temperature spread come on top.";

/// The whole of force_table.csv-metadata.json: a table description of "Metadata Vocabulary for Tabular
/// Data", W3C Recommendation 17 December 2015 (CSVW), that tells the columns, their units, what the table
/// was computed from, with what, and how well.
/// @param run       its first device is that of the table
/// @param csv_name  the file that is described, beside this one
/// @param csv       its content, for its hash; empty: no hash
std::string csvw_metadata(const ForceTable& table, const RunOrigin& run, const std::string& csv_name,
                          const std::string& csv = {});

}  // namespace coilpull
