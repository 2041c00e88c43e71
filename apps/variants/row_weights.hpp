// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include <optional>
#include <string>
#include <vector>

#include "apps/input/force_table_file.hpp"

namespace coilpull {

/// One row of a table and what its force counts in a figure.
struct RowWeight {
  std::size_t displacement, set;  ///< of ForceTableFile::at
  double weight;                  ///< figure per newton
};

/// The rows whose forces add up to a figure of figure_words(): of a largest force one row with 1 or -1, of a
/// work those of its trapezoids. A small change of the device changes the figure by their changes, as long as
/// the same rows stay the largest. Nothing: the figure is no such sum, or the table has holes where it
/// counts.
std::optional<std::vector<RowWeight>> row_weights(const std::string& figure, const ForceTableFile& table);

}  // namespace coilpull
