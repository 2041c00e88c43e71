// SPDX-License-Identifier: GPL-3.0-or-later
#include "apps/output/csv_cell.hpp"

#include <charconv>

namespace coilpull {
namespace {

bool is_number(const std::string& words) {
  double value = 0;
  const char *from = words.data() + (words[0] == '+' ? 1 : 0), *end = words.data() + words.size();
  const auto read = std::from_chars(from, end, value);
  return read.ec == std::errc() && read.ptr == end;
}

bool is_formula(const std::string& words) {
  return !words.empty() && std::string("=+-@\t\r").find(words[0]) != std::string::npos && !is_number(words);
}

}  // namespace

std::string csv_cell(const std::string& words) {
  const std::string shown = is_formula(words) ? "'" + words : words;
  if (shown.find_first_of(",\"\r\n") == std::string::npos) return shown;
  std::string quoted = "\"";
  for (const char letter : shown) quoted += letter == '"' ? "\"\"" : std::string(1, letter);
  return quoted + "\"";
}

}  // namespace coilpull
