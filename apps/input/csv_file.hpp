// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include <cstddef>
#include <filesystem>
#include <optional>
#include <string>
#include <string_view>
#include <vector>

#include "apps/input/bad_csv.hpp"

namespace coilpull {

struct CsvRecord {
  std::size_t line;  ///< where it starts, from 1
  std::vector<std::string> cells;
};

/// A table of text, from a spreadsheet, an instrument or this program.
struct CsvFile {
  std::string name;  ///< as the person named it
  char separator;
  CsvRecord header;
  std::vector<CsvRecord> records;  ///< each with as many cells as the header

  CsvPlace place(const CsvRecord& record, std::size_t column) const;
  /// The cell without blanks around it.
  std::string cell(const CsvRecord& record, std::size_t column) const;
  /// Nothing for an empty cell. A comma is the decimal sign where it is not the separator.
  /// @throws BadCsv  when the whole cell is not one finite number
  std::optional<double> number(const CsvRecord& record, std::size_t column) const;

  // By name, for tables of known columns. record: from 0.

  /// @throws BadCsv  no such column
  std::size_t column(const std::string& header_words) const;
  std::string text_at(std::size_t record, const std::string& header_words) const;
  /// @throws BadCsv  also when the cell is empty or not one finite number
  double number_at(std::size_t record, const std::string& header_words) const;
};

/// RFC 4180, and what is common beside it: comma, semicolon or tab between cells (told from the header line),
/// any ends of lines, a byte order mark, empty lines, lines that start with # or %.
/// @throws BadCsv  cannot be read, no header, no rows, an open quote, a row with another number of cells
CsvFile read_csv_file(const std::filesystem::path& file);
CsvFile read_csv_text(std::string_view text, const std::string& name);

}  // namespace coilpull
