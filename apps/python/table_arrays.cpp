// SPDX-License-Identifier: GPL-3.0-or-later
#include "apps/python/table_arrays.hpp"

#include "materials/detail/nan.hpp"

namespace coilpull {
namespace {

namespace py = pybind11;
using Shape = std::vector<py::ssize_t>;

struct Grid {
  std::size_t displacements, sets;
};

Grid grid(const ForceTable& table) {
  const std::size_t sets = table.currents_per_displacement;
  return {sets == 0 ? 0 : table.rows.size() / sets, sets};
}

py::array_t<double> array_of(const std::vector<double>& values, const Shape& shape) {
  py::array_t<double> array(shape);
  std::copy(values.begin(), values.end(), array.mutable_data());
  return array;
}

py::ssize_t signed_size(std::size_t size) { return static_cast<py::ssize_t>(size); }

}  // namespace

py::array_t<double> grid_of(const ForceTable& table, const RowValue& value) {
  std::vector<double> values;
  for (const Measurement& row : table.rows) values.push_back(value(row));
  const Grid size = grid(table);
  return array_of(values, {signed_size(size.displacements), signed_size(size.sets)});
}

py::array_t<double> grid_of(const ForceTable& table, std::size_t depth, const RowValues& values) {
  std::vector<double> all;
  for (const Measurement& row : table.rows) {
    std::vector<double> some = values(row);
    some.resize(depth, nan);
    all.insert(all.end(), some.begin(), some.end());
  }
  const Grid size = grid(table);
  return array_of(all, {signed_size(size.displacements), signed_size(size.sets), signed_size(depth)});
}

py::array_t<double> displacements_of(const ForceTable& table) {
  const Grid size = grid(table);
  std::vector<double> values;
  for (std::size_t d = 0; d < size.displacements; ++d)
    values.push_back(table.rows[d * size.sets].displacement);
  return array_of(values, {signed_size(size.displacements)});
}

py::array_t<double> currents_of(const ForceTable& table) {
  const Grid size = grid(table);
  std::vector<double> values;
  for (std::size_t set = 0; set < size.sets; ++set)
    values.insert(values.end(), table.rows[set].currents_A.begin(), table.rows[set].currents_A.end());
  return array_of(values, {signed_size(size.sets), signed_size(table.circuits.size())});
}

std::vector<std::vector<std::string>> statuses_of(const ForceTable& table) {
  const Grid size = grid(table);
  std::vector<std::vector<std::string>> words(size.displacements);
  for (std::size_t n = 0; n < table.rows.size(); ++n)
    words[n / size.sets].push_back(word_for(table.rows[n].status));
  return words;
}

}  // namespace coilpull
