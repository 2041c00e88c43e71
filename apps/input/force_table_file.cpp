// SPDX-License-Identifier: GPL-3.0-or-later
#include "apps/input/force_table_file.hpp"

#include <algorithm>
#include <cmath>
#include <map>

#include "materials/detail/nan.hpp"

namespace coilpull {
namespace {

std::optional<std::size_t> find_column(const CsvFile& file, const std::string& name) {
  const auto found = std::find(file.header.cells.begin(), file.header.cells.end(), name);
  if (found == file.header.cells.end()) return std::nullopt;
  return static_cast<std::size_t>(found - file.header.cells.begin());
}

std::size_t need_column(const CsvFile& file, const std::string& name) {
  if (const auto column = find_column(file, name)) return *column;
  refuse_csv({file.name, file.header.line}, "this is no force table: it has no column " + name + ".",
             "Name the force_table.csv that `coilpull table` wrote.");
}

double need_number(const CsvFile& file, const CsvRecord& record, std::size_t column) {
  if (const auto number = file.number(record, column)) return *number;
  refuse_csv(file.place(record, column), "the cell is empty.",
             "Name the table as `coilpull table` wrote it.");
}

/// NaN is what the table writes for what is not usable.
double number_or_nan(const CsvFile& file, const CsvRecord& record, std::optional<std::size_t> column) {
  if (!column || file.cell(record, *column) == "NaN") return nan;
  return need_number(file, record, *column);
}

struct TableColumns {
  std::size_t displacement, force, bar;
  std::optional<std::size_t> low, high;
  std::vector<std::size_t> currents;
  std::optional<std::size_t> coenergy = {};
  std::vector<std::optional<std::size_t>> linkages = {}, linkage_bars = {};  ///< one per circuit
  std::vector<std::size_t> b_r = {}, b_z = {};                               ///< one per sensor
};

/// What stands between head and tail in the name of a column; nothing: it is none of these.
std::optional<std::string> named_in(const std::string& column, const std::string& head,
                                    const std::string& tail) {
  if (column.size() <= head.size() + tail.size() || column.rfind(head, 0) != 0 ||
      column.compare(column.size() - tail.size(), tail.size(), tail) != 0)
    return std::nullopt;
  return column.substr(head.size(), column.size() - head.size() - tail.size());
}

TableColumns columns_of(const CsvFile& file, std::vector<std::string>& circuits,
                        std::vector<std::string>& sensors) {
  TableColumns columns{need_column(file, "displacement_mm"),
                       need_column(file, "force_N"),
                       need_column(file, "force_numerical_error_N"),
                       find_column(file, "force_low_N"),
                       find_column(file, "force_high_N"),
                       {}};
  for (std::size_t i = 0; i < file.header.cells.size(); ++i) {
    const std::string& name = file.header.cells[i];
    if (const auto circuit = named_in(name, "current_", "_A"))
      columns.currents.push_back(i), circuits.push_back(*circuit);
    if (const auto sensor = named_in(name, "B_r_", "_T"))
      if (const auto along = find_column(file, "B_z_" + *sensor + "_T"))
        columns.b_r.push_back(i), columns.b_z.push_back(*along), sensors.push_back(*sensor);
  }
  columns.coenergy = find_column(file, "coenergy_J");
  for (const std::string& circuit : circuits) {
    columns.linkages.push_back(find_column(file, "flux_linkage_" + circuit + "_Wb"));
    columns.linkage_bars.push_back(find_column(file, "flux_linkage_numerical_error_" + circuit + "_Wb"));
  }
  return columns;
}

TabledForce row_of(const CsvFile& file, const CsvRecord& record, const TableColumns& columns) {
  TabledForce row{number_or_nan(file, record, columns.force), number_or_nan(file, record, columns.bar),
                  number_or_nan(file, record, columns.low), number_or_nan(file, record, columns.high)};
  if (std::isfinite(row.force_N) && !(row.bar_N >= 0))
    refuse_csv(file.place(record, columns.bar), "a force without its error bar.",
               "Name the table as `coilpull table` wrote it.");
  for (const std::optional<std::size_t>& linkage : columns.linkages)
    row.linkage_Wb.push_back(number_or_nan(file, record, linkage));
  for (const std::optional<std::size_t>& bar : columns.linkage_bars)
    row.linkage_bar_Wb.push_back(number_or_nan(file, record, bar));
  row.coenergy_J = number_or_nan(file, record, columns.coenergy);
  for (std::size_t k = 0; k < columns.b_r.size(); ++k)
    row.sensors.push_back(
        {number_or_nan(file, record, columns.b_r[k]), number_or_nan(file, record, columns.b_z[k])});
  return row;
}

}  // namespace

double ForceTableFile::peak_force_N() const {
  double peak = 0;
  for (const TabledForce& row : rows)
    if (std::isfinite(row.force_N)) peak = std::max(peak, std::abs(row.force_N));
  return peak;
}

void refuse_no_grid(const std::string& name, std::size_t displacements, std::size_t sets, std::size_t rows) {
  constexpr std::size_t always = 10000;  // a few rows by hand need not lie in lines
  if (displacements * sets <= always + 2 * rows) return;
  refuse_csv({name},
             "its " + std::to_string(rows) + " rows are no grid: " + std::to_string(displacements) +
                 " different displacements with " + std::to_string(sets) + " different sets of currents.",
             "Name the table as `coilpull table` wrote it: the same currents at every displacement.");
}

ForceTableFile read_force_table(const CsvFile& file) {
  ForceTableFile table{file.name, {}, {}, {}, {}};
  table.sha256 = file.sha256;
  const TableColumns columns = columns_of(file, table.circuits, table.sensors);
  table.has_spread = columns.low && columns.high;
  std::map<double, std::map<std::size_t, TabledForce>> by_place;  // displacement [m] -> set -> row
  std::map<std::vector<double>, std::size_t> number_of_set;
  for (const CsvRecord& record : file.records) {
    std::vector<double> set;
    for (const std::size_t column : columns.currents) set.push_back(need_number(file, record, column));
    const auto [known, is_new] = number_of_set.emplace(set, table.currents_A.size());
    if (is_new) table.currents_A.push_back(set);
    const std::size_t number = known->second;
    const double displacement = need_number(file, record, columns.displacement) / 1000;
    if (!by_place[displacement].emplace(number, row_of(file, record, columns)).second)
      refuse_csv(file.place(record, columns.displacement),
                 "this displacement and current stand twice in the table.",
                 "Name the table as `coilpull table` wrote it.");
  }
  refuse_no_grid(file.name, by_place.size(), table.currents_A.size(), file.records.size());
  for (const auto& [displacement, sets] : by_place) {
    table.displacements.push_back(displacement);
    for (std::size_t k = 0; k < table.currents_A.size(); ++k) {
      const auto row = sets.find(k);
      table.rows.push_back(row == sets.end() ? TabledForce{nan, nan, nan, nan} : row->second);
    }
  }
  if (std::none_of(table.rows.begin(), table.rows.end(),
                   [](const TabledForce& row) { return std::isfinite(row.force_N); }))
    refuse_csv({file.name}, "no row of the table has a usable force.",
               "See its column status, and solve it again.");
  return table;
}

}  // namespace coilpull
