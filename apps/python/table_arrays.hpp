// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include <pybind11/numpy.h>

#include <functional>
#include <string>
#include <vector>

#include "solver/sweep/force_table.hpp"

namespace coilpull {

// Columns of a table as arrays: displacements first, sets of currents second, circuits or bodies third.

using RowValue = std::function<double(const Measurement&)>;
using RowValues = std::function<std::vector<double>(const Measurement&)>;

/// (displacements, sets)
pybind11::array_t<double> grid_of(const ForceTable& table, const RowValue& value);
/// (displacements, sets, depth); NaN where a row has fewer
pybind11::array_t<double> grid_of(const ForceTable& table, std::size_t depth, const RowValues& values);
/// (displacements) [m]
pybind11::array_t<double> displacements_of(const ForceTable& table);
/// (sets, circuits) [A]
pybind11::array_t<double> currents_of(const ForceTable& table);
/// (displacements, sets) of words
std::vector<std::vector<std::string>> statuses_of(const ForceTable& table);

}  // namespace coilpull
