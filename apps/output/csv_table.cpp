// SPDX-License-Identifier: GPL-3.0-or-later
#include "apps/output/csv_table.hpp"

#include "apps/output/csv_cell.hpp"
#include "apps/output/table_columns.hpp"

namespace coilpull {

std::string csv_text(const ForceTable& table) {
  const std::vector<Column> columns = table_columns(table);
  std::string text;
  const auto add_line = [&](const auto& field_of) {
    for (std::size_t i = 0; i < columns.size(); ++i)
      text += (i == 0 ? "" : ",") + csv_cell(field_of(columns[i]));
    text += "\r\n";
  };
  add_line([](const Column& column) { return column.name; });
  for (const Measurement& row : table.rows) add_line([&](const Column& column) { return column.cell(row); });
  return text;
}

}  // namespace coilpull
