// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include <algorithm>
#include <cctype>
#include <cmath>
#include <cstdlib>
#include <string>

#include "tests/read_csv.hpp"

namespace coilpull {

/// A figure as printed, and how far off a right value may be: six tenths of a unit of its last digit, half a
/// unit for the rounding of the print and a tenth for ours.
struct Printed {
  double value, slack;
  bool agrees(double computed) const { return std::abs(computed - value) <= slack; }
};

inline Printed printed(const std::string& cell) {
  const std::size_t exponent_at = cell.find_first_of("eE"), point = cell.find('.');
  const int exponent = exponent_at == std::string::npos ? 0 : std::atoi(cell.c_str() + exponent_at + 1);
  const std::size_t end = std::min(exponent_at, cell.size());
  const int decimals = point == std::string::npos ? 0 : static_cast<int>(end - point - 1);
  return {std::stod(cell), 0.6 * std::pow(10, exponent - decimals)};
}

inline Printed printed(const CsvFile& table, std::size_t row, const std::string& column) {
  return printed(table.text_at(row, column));
}

/// The number after `key` in words like "Ri=6 Ro=12 l=20 mm".
inline double number_after(const std::string& words, const std::string& key) {
  const std::size_t at = words.find(key);
  if (at == std::string::npos) throw std::runtime_error("no \"" + key + "\" in \"" + words + "\"");
  return std::atof(words.c_str() + at + key.size());
}

}  // namespace coilpull
