// SPDX-License-Identifier: GPL-3.0-or-later
#include "apps/device_file/exact_text.hpp"

#include <charconv>
#include <cmath>
#include <cstdio>
#include <cstdlib>

namespace coilpull {

namespace {

std::string bracketed(const std::vector<std::string>& entries) {
  std::string list;
  for (const std::string& entry : entries) list += (list.empty() ? "" : ", ") + entry;
  return "[" + list + "]";
}

}  // namespace

std::string toml_number(double value) {
  char words[40];
  return {words, std::to_chars(words, words + sizeof words, value + 0.0).ptr};  // + 0.0: no -0
}

std::string toml_rounded(double value, int figures) {
  char words[40];
  const char* const end =
      std::to_chars(words, words + sizeof words, value, std::chars_format::general, figures).ptr;
  std::from_chars(words, end, value);
  return toml_number(value);
}

std::string toml_numbers(const std::vector<double>& list) {
  std::vector<std::string> entries;
  entries.reserve(list.size());
  for (const double value : list) entries.push_back(toml_number(value));
  return bracketed(entries);
}

std::string toml_text(const std::string& words) {
  std::string quoted = "\"";
  for (const char c : words) {
    char code[8];
    if (c == '"' || c == '\\')
      quoted += {'\\', c};
    else if (static_cast<unsigned char>(c) < 0x20 || c == 0x7F)
      quoted.append(code, static_cast<std::size_t>(std::snprintf(code, sizeof code, "\\u%04X", c)));
    else
      quoted += c;
  }
  return quoted + '"';
}

std::optional<double> before_division(double quotient, double over) {
  const double near = quotient * over;
  char words[40];
  for (int digits = 1; digits <= 17; ++digits) {
    *std::to_chars(words, words + sizeof words, near, std::chars_format::general, digits).ptr = '\0';
    if (const double number = std::strtod(words, nullptr); number / over == quotient) return number;
  }
  for (const double other : {std::nextafter(near, -HUGE_VAL), std::nextafter(near, HUGE_VAL)})
    if (other / over == quotient) return other;
  return std::nullopt;
}

std::string toml_length(const std::string& stem, double metres) {
  if (const auto mm = before_division(metres, 1000)) return stem + "_mm = " + toml_number(*mm);
  return stem + "_m = " + toml_number(metres);
}

std::string toml_lengths(const std::string& stem, const std::vector<double>& metres) {
  std::vector<std::string> entries;
  for (const double value : metres) {
    const auto mm = before_division(value, 1000);
    if (!mm) return stem + "_m = " + toml_numbers(metres);
    entries.push_back(toml_number(*mm));
  }
  return stem + "_mm = " + bracketed(entries);
}

}  // namespace coilpull
