// SPDX-License-Identifier: GPL-3.0-or-later
#include "apps/output/number_text.hpp"

#include <algorithm>
#include <charconv>
#include <cmath>
#include <cstdlib>

namespace coilpull {
namespace {

constexpr std::size_t room = 64;  // more than any form below needs

}  // namespace

std::string shortest(double value) {
  if (!std::isfinite(value)) return "NaN";
  char text[room];
  return {text, std::to_chars(text, text + room, value).ptr};
}

double as_written(double value) {
  if (!std::isfinite(value)) return value;
  char text[room];
  const char* end = std::to_chars(text, text + room, value, std::chars_format::scientific, 14).ptr;
  double nearest = value;
  std::from_chars(text, end, nearest);
  return nearest;
}

double in_mm(double metres) { return as_written(1e3 * metres); }

std::string rounded(double value, int digits) {
  if (!std::isfinite(value)) return "NaN";
  char text[room];
  return {text, std::to_chars(text, text + room, value, std::chars_format::general, digits).ptr};
}

std::string millimetres(double metres, int digits) { return rounded(in_mm(metres), digits) + " mm"; }

std::string with_bar(const Measured& measured) {
  if (!std::isfinite(measured.value)) return "NaN";
  if (!(measured.error > 0)) return rounded(measured.value, 4) + " +- " + rounded(measured.error, 2);
  const double ratio = std::abs(measured.value) / measured.error;
  const int digits = ratio > 1 ? static_cast<int>(std::ceil(std::log10(ratio))) + 1 : 2;
  return rounded(measured.value, std::clamp(digits, 2, 12)) + " +- " + rounded(measured.error, 2);
}

}  // namespace coilpull
