// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include <filesystem>
#include <optional>
#include <string>
#include <vector>

#include "apps/input/column_words.hpp"
#include "apps/input/csv_file.hpp"

namespace coilpull {

/// What a person's columns can refer to.
struct KnownNames {
  std::vector<std::string> circuits;
  std::vector<std::optional<double>> only_current_A;  ///< of each circuit, where it never changes
  std::vector<std::string> sensors = {};
};

/// A column of results in a person's file.
struct MeasuredColumn {
  ColumnKind kind;     ///< force, field or inductance
  std::size_t of = 0;  ///< number of the sensor or circuit
  std::string header;  ///< as it stands in the file
};

struct MeasuredNumber {
  double value;                       ///< [N], [T] or [H]
  std::optional<double> uncertainty;  ///< standard uncertainty, one sigma (JCGM 100:2008), same unit; > 0
};

struct MeasuredRow {
  std::size_t line;                                    ///< in the file
  double displacement;                                 ///< [m]
  std::vector<double> currents_A;                      ///< one per circuit
  std::vector<std::optional<MeasuredNumber>> results;  ///< one per column; none: an empty cell
};

/// Forces, fields and inductances at displacements and currents, from a spreadsheet or a bench.
struct MeasuredFile {
  std::string name;
  std::vector<MeasuredColumn> columns;
  std::vector<MeasuredRow> rows;
  std::vector<std::string> not_read;  ///< headers that were passed over
};

/// Which results the caller can use.
struct WantedKinds {
  bool force = true, field = false, inductance = false;
};

/// @throws BadCsv  a column of displacement or of a current that varies is missing, no result is there, a
/// unit is missing, two columns say the same, a circuit or sensor is unknown, a cell is no number
MeasuredFile read_measured(const CsvFile& file, const KnownNames& names, const WantedKinds& wanted = {});

}  // namespace coilpull
