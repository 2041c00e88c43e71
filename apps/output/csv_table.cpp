// SPDX-License-Identifier: GPL-3.0-or-later
#include "apps/output/csv_table.hpp"

#include "apps/output/table_columns.hpp"

namespace coilpull {

std::string quoted_if_needed(const std::string& field) {
  if (field.find_first_of(",\"\r\n") == std::string::npos) return field;
  std::string quoted = "\"";
  for (const char c : field) {
    if (c == '"') quoted += '"';
    quoted += c;
  }
  return quoted + '"';
}

std::string csv_text(const ForceTable& table) {
  const std::vector<Column> columns = table_columns(table);
  std::string text;
  const auto add_line = [&](const auto& field_of) {
    for (std::size_t i = 0; i < columns.size(); ++i)
      text += (i == 0 ? "" : ",") + quoted_if_needed(field_of(columns[i]));
    text += "\r\n";
  };
  add_line([](const Column& column) { return column.name; });
  for (const Measurement& row : table.rows) add_line([&](const Column& column) { return column.cell(row); });
  return text;
}

}  // namespace coilpull
