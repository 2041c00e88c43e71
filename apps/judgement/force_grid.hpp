// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include <optional>
#include <string>
#include <vector>

#include "apps/input/force_table_file.hpp"

namespace coilpull {

/// What a table says of the force at one place.
struct GridForce {
  double force_N;
  double bar_N;           ///< numerical: the largest of the rows around
  double between_rows_N;  ///< error of reading between them, see SmoothLine
  double low_N, high_N;   ///< spread of the input; NaN when the table does not say
};

/// A force, or why the table does not say it.
struct GridAnswer {
  std::optional<GridForce> force;
  std::string why;  ///< for a list: "outside the table's displacements, 0 to 50 mm"
};

/// Reads a table of forces between its rows, along displacement and then along each current in turn, never
/// beyond them. Sets of currents need not be a full grid: those are used that lie in line with what is asked.
class ForceGrid {
public:
  explicit ForceGrid(ForceTableFile table);

  const ForceTableFile& table() const { return table_; }
  GridAnswer at(double displacement, const std::vector<double>& currents_A) const;

private:
  using Sets = std::vector<std::size_t>;
  GridAnswer along_displacement(double displacement, std::size_t set) const;
  GridAnswer along_currents(double displacement, const std::vector<double>& currents_A, std::size_t circuit,
                            const Sets& sets) const;

  ForceTableFile table_;
};

}  // namespace coilpull
