// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include <cstddef>
#include <string>
#include <string_view>

namespace coilpull::detail {

/// Letters of a title, a source or another text of a file at most: they are printed, drawn and put into
/// comments, where more would push everything else out.
inline constexpr std::size_t most_letters = 1000;

// Of the letter (UTF-8) that the words start with:
bool is_control(std::string_view words);       ///< C0, DEL or C1 (ISO 6429), which terminals obey
bool turns_direction(std::string_view words);  ///< U+202A to U+202E, U+2066 to U+2069 (UAX 9), by which a
                                               ///< line is shown as something else than it is

/// Why the words cannot be shown on a line: "has 1200 letters; at most 1000 are taken", "has a control
/// character ..." (a tab is none). Empty when they can.
std::string why_not_one_line(std::string_view words, std::size_t most = most_letters);

}  // namespace coilpull::detail
