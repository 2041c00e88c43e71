// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include <cstddef>
#include <optional>
#include <string>
#include <vector>

#include "solver/sweep/force_table.hpp"

namespace coilpull {

/// One row of a table and what its force counts in a figure.
struct RowWeight {
  std::size_t row;    ///< of ForceTable::rows
  double weight;      ///< figure per newton
  double bar_weight;  ///< bar of the figure per newton of the row's bar, >= |weight|
};

/// The figures that are a choice of rows and a weight for each: force_N, force_off_N, push_N, pull_N,
/// least_push_N, work_J and switched_work_J of figure_words().
const std::vector<std::string>& force_figures();

/// The rows whose forces add up to one of these: of a largest force one row with 1 or -1, of a work those of
/// its trapezoids. A small change of the device changes the figure by their changes, as long as the same rows
/// stay the largest. Nothing: the figure is no such sum, or the table has no usable rows for it.
std::optional<std::vector<RowWeight>> row_weights(const std::string& figure, const ForceTable& table);

/// The figure itself: sum of weight * force, and of bar_weight * bar.
Measured weighted(const std::vector<RowWeight>& weights, const ForceTable& table);

}  // namespace coilpull
