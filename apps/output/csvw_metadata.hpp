// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include <string>
#include <vector>

#include "solver/sweep/force_table.hpp"

namespace coilpull {

/// A steel or magnet that came from a file.
struct UsedMaterial {
  std::string part, name, file_name;  ///< the file without its folder
  std::string file_content;           ///< for the hash
};

/// What the table was made from, enough to make it again.
struct Origin {
  std::string title;                         ///< of the device
  std::string file_name;                     ///< of the device file, without its folder
  std::string file_content;                  ///< for the hash: as it was when it was read
  std::string canonical_text = {};           ///< the device itself, every default written out
  std::vector<UsedMaterial> materials = {};  ///< whose numbers are not in that text
  std::string csv = {};                      ///< what is described, for its hash; empty: no hash
};

/// What every table and report says about the reach of its numbers.
inline constexpr const char* limits_of_the_table =
    "On axis, one coil or one set of coils, statics: no tilt or sideways shift, no eddy currents, no "
    "hysteresis. The error bar is numerical only; material, size and temperature spread come on top.";

/// The whole of force_table.csv-metadata.json: a table description of "Metadata Vocabulary for Tabular
/// Data", W3C Recommendation 17 December 2015 (CSVW), that tells the columns, their units, what the table
/// was computed from, with what, and how well.
/// @param csv_name  the file that is described, beside this one
std::string csvw_metadata(const ForceTable& table, const Origin& origin, const std::string& csv_name);

}  // namespace coilpull
