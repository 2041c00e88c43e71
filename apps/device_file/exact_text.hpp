// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include <optional>
#include <string>
#include <vector>

namespace coilpull {

// Numbers and texts as TOML that read back to the same bits.

std::string toml_number(double value);                      ///< fewest digits
std::string toml_rounded(double value, int figures);        ///< to so many significant figures, 1 to 17
std::string toml_numbers(const std::vector<double>& list);  ///< "[1, 2.5]"
std::string toml_text(const std::string& words);            ///< in quotes

/// The number of fewest digits that divided by `over` gives exactly this quotient: 3 for 0.03 and 100. None
/// for a few in a hundred of all doubles: dividing passes over them.
std::optional<double> before_division(double quotient, double over);

/// "radius_mm = 4.5": in millimetres, or in metres where no number of millimetres reads back exactly.
std::string toml_length(const std::string& stem, double metres);
std::string toml_lengths(const std::string& stem, const std::vector<double>& metres);  ///< "stem_mm = [...]"

}  // namespace coilpull
