// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include <cstddef>
#include <optional>
#include <string>
#include <vector>

#include "apps/input/measured_file.hpp"
#include "apps/judgement/force_grid.hpp"

namespace coilpull {

enum class AgainstBar { inside, outside, not_judged };

/// One of the person's forces beside that of the table.
struct JudgedPoint {
  std::size_t line;  ///< in the person's file
  double displacement;
  std::vector<double> currents_A;
  double mine_N;
  double mine_bar_N;  ///< twice the stated standard uncertainty, 95 % for a normal one; 0 when none is stated
  std::optional<GridForce> table;  ///< none: not judged
  AgainstBar verdict;
  std::string why = {};  ///< not judged

  double difference_N() const { return mine_N - table->force_N; }
  /// What the difference may be: the table's bar, its error between rows, and the person's own bar. [N]
  double allowed_N() const { return table->bar_N + table->between_rows_N + mine_bar_N; }
  /// Nothing when the table does not say what the spread of its input leaves.
  std::optional<bool> inside_spread() const;
};

struct Judgement {
  std::vector<JudgedPoint> points;  ///< in the order of the person's file; rows without a force are left out
  double peak_force_N;              ///< of the table

  std::vector<const JudgedPoint*> judged() const;
};

/// Lays the person's forces (column 0 of the file) over the table.
Judgement judge(const ForceGrid& grid, const MeasuredFile& mine);

double rms_difference_N(const std::vector<const JudgedPoint*>& points);

}  // namespace coilpull
