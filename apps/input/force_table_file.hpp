// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include <limits>
#include <optional>
#include <string>
#include <vector>

#include "apps/input/csv_file.hpp"
#include "solver/measure/measurement.hpp"

namespace coilpull {

/// A row of force_table.csv; NaN where the file says so or where the grid has no such row.
struct TabledForce {
  double force_N, bar_N;
  double low_N, high_N;  ///< what the spread of the input leaves; NaN when the table does not say
  // NaN when the table does not say; linkages one per circuit.
  std::vector<double> linkage_Wb = {}, linkage_bar_Wb = {};
  double coenergy_J = std::numeric_limits<double>::quiet_NaN();
  std::vector<SensorField> sensors = {};  ///< one per sensor
};

/// The forces of a force_table.csv on their grid.
struct ForceTableFile {
  std::string name;
  std::vector<std::string> circuits;
  std::vector<double> displacements;            ///< [m], rising
  std::vector<std::vector<double>> currents_A;  ///< sets as they occur, a current per circuit
  std::vector<TabledForce> rows;                ///< displacement slow, set of currents fast
  bool has_spread = false;
  std::vector<std::string> sensors = {};
  std::string sha256 = {};  ///< of the bytes, when it came from a file

  const TabledForce& at(std::size_t displacement, std::size_t set) const {
    return rows[displacement * currents_A.size() + set];
  }
  double peak_force_N() const;  ///< largest |force|
};

/// A grid of thousands of places has rows for half of them at least, so that a diagonal of 100 000 rows does
/// not become a grid that fills the memory.
/// @throws BadCsv
void refuse_no_grid(const std::string& name, std::size_t displacements, std::size_t sets, std::size_t rows);

/// @throws BadCsv  not such a table, no grid, a row twice, a row whose force has no bar, or no usable force
ForceTableFile read_force_table(const CsvFile& file);

}  // namespace coilpull
