// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include <functional>
#include <string>
#include <vector>

#include "solver/sweep/force_table.hpp"

namespace coilpull {

/// What the cells of a column hold.
enum class Cell { number, count, word };

/// One column of force_table.csv. The file and its metadata are both written from the same list.
struct Column {
  std::string name;     ///< as in the header line
  std::string unit;     ///< "mm", "A", "N", "Wb", "J", "T"; empty: a pure number or a word
  std::string meaning;  ///< one sentence for a reader who has only the file
  Cell kind;
  std::function<std::string(const Measurement&)> cell;  ///< the text of the row's cell, not yet quoted
};

/// Every column, in the order of the file. What a row does not have (it failed) reads "NaN".
std::vector<Column> table_columns(const ForceTable& table);

}  // namespace coilpull
