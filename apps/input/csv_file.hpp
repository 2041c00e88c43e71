// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include <cstddef>
#include <cstdint>
#include <filesystem>
#include <optional>
#include <string>
#include <string_view>
#include <vector>

#include "apps/input/bad_csv.hpp"

namespace coilpull {

struct CsvHeader {
  std::size_t line = 0;  ///< where it starts, from 1
  std::vector<std::string> cells = {};
};

struct CsvRecord {
  std::size_t line;    ///< where it starts, from 1
  std::size_t number;  ///< from 0
};

/// What is read at most: a force table of 128 MiB has some 400 000 rows. Reading takes two to four times the
/// size of the file.
struct CsvLimits {
  std::size_t bytes = 128u << 20, rows = 1000000, columns = 10000;
};

/// A table of text, from a spreadsheet, an instrument or this program. The text is held once, not cell by
/// cell.
struct CsvFile {
  std::string name;  ///< as the person named it
  char separator;
  CsvHeader header;
  std::vector<CsvRecord> records;  ///< each with as many cells as the header
  std::string sha256 = {};         ///< of the bytes, when it came from a file

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

  /// All cells one behind the other, record by record, without blanks around them, and where each ends.
  std::string cell_text = {};
  std::vector<std::uint32_t> cell_ends = {};
};

/// RFC 4180, and what is common beside it: comma, semicolon or tab between cells (told from the header line),
/// any ends of lines, a byte order mark, empty lines, lines that start with # or %.
/// @throws BadCsv  cannot be read, no header, no rows, an open quote, a row with another number of cells,
/// more than the limits
CsvFile read_csv_file(const std::filesystem::path& file, const CsvLimits& limits = {});
CsvFile read_csv_text(std::string_view text, const std::string& name, const CsvLimits& limits = {});

}  // namespace coilpull
