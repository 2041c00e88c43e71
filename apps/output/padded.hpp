// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include <algorithm>
#include <string>

namespace coilpull {

/// The words filled with blanks to a column's width; at least one blank follows words that are longer.
inline std::string padded(std::string words, std::size_t width) {
  words.resize(std::max(words.size() + 1, width), ' ');
  return words;
}

}  // namespace coilpull
