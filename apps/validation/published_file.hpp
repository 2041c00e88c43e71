// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include <algorithm>
#include <filesystem>
#include <fstream>
#include <stdexcept>
#include <string>
#include <vector>

namespace coilpull {

/// A table of published figures: first line a # comment with the source, then the column names, then rows.
struct CsvTable {
  std::vector<std::string> columns;
  std::vector<std::vector<std::string>> rows;  ///< each as long as columns

  std::size_t column(const std::string& name) const {
    const auto found = std::find(columns.begin(), columns.end(), name);
    if (found == columns.end()) throw std::runtime_error("no column " + name);
    return static_cast<std::size_t>(found - columns.begin());
  }
  const std::string& text(std::size_t row, const std::string& name) const {
    return rows.at(row).at(column(name));
  }

  /// @throws std::runtime_error  when the whole cell is not a number
  double number(std::size_t row, const std::string& name) const {
    const std::string& cell = text(row, name);
    std::size_t used = 0;
    const double value = cell.empty() ? 0 : std::stod(cell, &used);
    if (used == 0 || used != cell.size())
      throw std::runtime_error("not a number: \"" + cell + "\" in " + name);
    return value;
  }
};

/// Cells of one line; a cell in double quotes may hold commas, and "" for a quote.
inline std::vector<std::string> published_cells(const std::string& line) {
  std::vector<std::string> cells(1);
  bool quoted = false;
  for (std::size_t i = 0; i < line.size(); ++i) {
    const char c = line[i];
    if (c == '\r') continue;
    if (c == '"' && quoted && i + 1 < line.size() && line[i + 1] == '"')
      cells.back() += line[++i];
    else if (c == '"')
      quoted = !quoted;
    else if (c == ',' && !quoted)
      cells.emplace_back();
    else
      cells.back() += c;
  }
  return cells;
}

/// @throws std::runtime_error  the file cannot be read, has no rows, or one of another length
inline CsvTable read_published_file(const std::filesystem::path& path) {
  std::ifstream stream(path);
  if (!stream) throw std::runtime_error(path.string() + " cannot be read");
  CsvTable table;
  for (std::string line; std::getline(stream, line);) {
    if (line.empty() || line[0] == '#') continue;
    const std::vector<std::string> cells = published_cells(line);
    if (table.columns.empty())
      table.columns = cells;
    else if (cells.size() == table.columns.size())
      table.rows.push_back(cells);
    else
      throw std::runtime_error(path.string() + ": a row has another number of cells: " + line);
  }
  if (table.rows.empty()) throw std::runtime_error(path.string() + " has no rows");
  return table;
}

}  // namespace coilpull
