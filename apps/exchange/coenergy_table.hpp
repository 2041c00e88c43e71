// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include <string>
#include <vector>

#include "apps/input/csv_file.hpp"
#include "solver/motion/fit_coenergy.hpp"

namespace coilpull {

/// The rows of a force_table.csv in which one circuit varies and the others stand still.
struct CircuitRows {
  std::string circuit;
  std::string others;  ///< "mid at 0 A, out at 0 A"; empty: there is no other
  std::vector<CoenergyRow> rows;
};

/// @param circuit  empty: the only one. The others are taken at the smallest current that the table has of
/// them.
/// @throws BadCsv  no such table or circuit, a circuit to choose, a row twice, or rows at fewer than two
/// displacements
///                 or two currents
CircuitRows rows_of_circuit(const CsvFile& file, const std::string& circuit);

/// Values of W'(z, i) and of its slopes on a grid, for other programs.
struct SampledTable {
  std::string title;
  std::string circuit;
  std::vector<std::string> notes;     ///< lines: what it was made from, how well, within which limits
  std::vector<double> displacement;   ///< [m], rising
  std::vector<double> current_A;      ///< rising
  std::vector<CoenergyPoint> points;  ///< displacement slow, current fast
  /// Largest difference between the function and straight lines between the points, half way between them.
  double force_between_N, linkage_between_Wb;

  const CoenergyPoint& at(std::size_t z, std::size_t i) const { return points[z * current_A.size() + i]; }
};

/// @param parts  >= 1: points in each interval of the table's displacements and currents
SampledTable sampled(const CoenergyFunction& function, int parts);

/// One array of a SampledTable, as the array formats have it.
struct NamedArray {
  std::string name;  ///< with its unit: "force_N"
  std::string unit;  ///< in the words of UDUNITS: "N m-1"
  std::string meaning;
  std::vector<std::string> dimensions;  ///< names of the arrays that number its rows and columns
  std::vector<double> values;           ///< last dimension fast
};
std::vector<NamedArray> arrays_of(const SampledTable& table);

}  // namespace coilpull
