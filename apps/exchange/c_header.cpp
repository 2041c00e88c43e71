// SPDX-License-Identifier: GPL-3.0-or-later
#include "apps/exchange/c_header.hpp"

#include <algorithm>
#include <cmath>
#include <cstdint>
#include <stdexcept>

#include "apps/output/number_text.hpp"
#include "apps/output/plain_text.hpp"

namespace coilpull {
namespace {

/// Cannot end a comment, nor start another, nor spell a trigraph.
std::string for_comment(const std::string& words) {
  std::string safe = plain_text(words);
  for (std::size_t k = 0; k + 1 < safe.size(); ++k)
    if ((safe[k] == '*' && safe[k + 1] == '/') || (safe[k] == '/' && safe[k + 1] == '*') ||
        (safe[k] == '?' && safe[k + 1] == '?'))
      safe[k] = ' ';
  return safe;
}

/// How one kind of number is written.
struct Words {
  std::string type;                  ///< of a number
  std::string wide;                  ///< of an intermediate
  std::string z, i, force, linkage;  ///< endings of names, with units
  double z_scale, i_scale, force_scale, linkage_scale;
};

Words words_for(CNumbers numbers) {
  if (numbers == CNumbers::fixed)
    return {"int32_t", "int64_t", "displacement_um", "current_mA", "force_mN", "linkage_uWb", 1e6, 1e3,
            1e3,       1e6};
  return {"float", "float", "displacement_m", "current_A", "force_N", "linkage_Wb", 1, 1, 1, 1};
}

std::string number(double value, CNumbers numbers) {
  if (numbers == CNumbers::floating) {
    std::string text = shortest(static_cast<double>(static_cast<float>(value)));
    if (text.find_first_of(".eE") == std::string::npos) text += ".0";
    return text + "f";
  }
  const double whole = std::round(value);
  if (!(std::abs(whole) < 2147483647.0))
    throw std::invalid_argument("the value " + shortest(value) + " does not fit into 32 bits");
  return std::to_string(static_cast<std::int32_t>(whole));
}

/// Eight numbers a line.
template <class Value>
std::string array(const std::string& head, std::size_t count, const Value& value, CNumbers numbers) {
  std::string text = "static const " + head + " = {";
  for (std::size_t k = 0; k < count; ++k)
    text += (k % 8 == 0 ? "\n  " : " ") + number(value(k), numbers) + (k + 1 < count ? "," : "");
  return text + "\n};\n";
}

void check_axis(const std::vector<double>& axis, double scale, const std::string& unit, CNumbers numbers) {
  if (numbers == CNumbers::floating) return;
  for (std::size_t k = 1; k < axis.size(); ++k)
    if (std::round(axis[k] * scale) <= std::round(axis[k - 1] * scale))
      throw std::invalid_argument("two places of " + unit + " are one when rounded to whole numbers");
}

void replace_all(std::string& text, const std::string& what, const std::string& with) {
  for (std::size_t at = text.find(what); at != std::string::npos; at = text.find(what, at + with.size()))
    text.replace(at, what.size(), with);
}

constexpr const char* look_up = R"(
/* Interval of a rising axis that holds x; *x is brought to the nearest edge. */
static inline int @_interval(const NUMBER* axis, int count, NUMBER* x) {
  int low = 0, high = count - 1;
  if (!(*x > axis[low])) *x = axis[low];
  if (*x > axis[high]) *x = axis[high];
  while (high - low > 1) {
    const int middle = (low + high) / 2;
    if (*x < axis[middle]) high = middle; else low = middle;
  }
  return low;
}

/* Straight line from a at x0 to b at x1. */
static inline NUMBER @_between(NUMBER a, NUMBER b, NUMBER x, NUMBER x0, NUMBER x1) {
  return (NUMBER)(a + ((WIDE)b - (WIDE)a) * ((WIDE)x - (WIDE)x0) / ((WIDE)x1 - (WIDE)x0));
}

static inline NUMBER @_read(const NUMBER* values, NUMBER displacement, NUMBER current) {
  const int k = @_interval(@_DISPLACEMENT, @_ROWS, &displacement);
  const int l = @_interval(@_CURRENT, @_COLUMNS, &current);
  const NUMBER* low = values + k * @_COLUMNS + l;
  const NUMBER* high = low + @_COLUMNS;
  const NUMBER i0 = @_CURRENT[l], i1 = @_CURRENT[l + 1];
  return @_between(@_between(low[0], low[1], current, i0, i1),
                   @_between(high[0], high[1], current, i0, i1),
                   displacement, @_DISPLACEMENT[k], @_DISPLACEMENT[k + 1]);
}

/* 1 inside the table, 0 where the look-ups give the value of the nearest edge. */
static inline int @_covers(NUMBER DISPLACEMENT, NUMBER CURRENT) {
  return DISPLACEMENT >= @_DISPLACEMENT[0] && DISPLACEMENT <= @_DISPLACEMENT[@_ROWS - 1] &&
         CURRENT >= @_CURRENT[0] && CURRENT <= @_CURRENT[@_COLUMNS - 1];
}

static inline NUMBER @_FORCE_LOOKUP(NUMBER DISPLACEMENT, NUMBER CURRENT) {
  return @_read(@_FORCE, DISPLACEMENT, CURRENT);
}

static inline NUMBER @_LINKAGE_LOOKUP(NUMBER DISPLACEMENT, NUMBER CURRENT) {
  return @_read(@_LINKAGE, DISPLACEMENT, CURRENT);
}
)";

}  // namespace

std::string c_header(const SampledTable& table, const std::string& name, CNumbers numbers) {
  const Words w = words_for(numbers);
  check_axis(table.displacement, w.z_scale, w.z, numbers);
  check_axis(table.current_A, w.i_scale, w.i, numbers);
  std::string guard = name + "_table_h";
  std::transform(guard.begin(), guard.end(), guard.begin(), [](unsigned char c) { return std::toupper(c); });
  std::string text = "/* " + for_comment(table.title) + ", circuit " + for_comment(table.circuit) + "\n";
  for (const std::string& note : table.notes) text += " * " + for_comment(note) + "\n";
  text += " * Use: " + name + "_" + w.force + "(" + w.z + ", " + w.i + ") and " + name + "_" + w.linkage +
          "(" + w.z + ", " + w.i +
          ").\n * Straight lines between the points; outside, the nearest edge: ask " + name +
          "_covers(). NaN reads the first edge.\n */\n#ifndef " + guard + "\n#define " + guard + "\n\n" +
          (numbers == CNumbers::fixed ? "#include <stdint.h>\n\n" : "");
  const std::size_t rows = table.displacement.size(), columns = table.current_A.size();
  text += "enum { " + name + "_rows = " + std::to_string(rows) + ", " + name +
          "_columns = " + std::to_string(columns) + " };\n\n";
  const auto declared = [&](const std::string& what, const std::string& size) {
    return w.type + " " + name + "_" + what + "_points[" + size + "]";
  };
  text += array(
      declared(w.z, std::to_string(rows)), rows,
      [&](std::size_t k) { return w.z_scale * table.displacement[k]; }, numbers);
  text += array(
      declared(w.i, std::to_string(columns)), columns,
      [&](std::size_t k) { return w.i_scale * table.current_A[k]; }, numbers);
  const std::string size = std::to_string(rows * columns);
  text += "/* a row of currents for each displacement */\n";
  text += array(
      declared(w.force, size), rows * columns,
      [&](std::size_t k) { return w.force_scale * table.points[k].force_N; }, numbers);
  text += array(
      declared(w.linkage, size), rows * columns,
      [&](std::size_t k) { return w.linkage_scale * table.points[k].linkage_Wb; }, numbers);
  std::string code = look_up;
  for (const auto& [from, to] :
       {std::pair<std::string, std::string>{"@_DISPLACEMENT", name + "_" + w.z + "_points"},
        {"@_CURRENT", name + "_" + w.i + "_points"},
        {"@_ROWS", name + "_rows"},
        {"@_COLUMNS", name + "_columns"},
        {"@_FORCE_LOOKUP", name + "_" + w.force},
        {"@_LINKAGE_LOOKUP", name + "_" + w.linkage},
        {"@_FORCE", name + "_" + w.force + "_points"},
        {"@_LINKAGE", name + "_" + w.linkage + "_points"},
        {"@", name},
        {"DISPLACEMENT", w.z},
        {"CURRENT", w.i},
        {"NUMBER", w.type},
        {"WIDE", w.wide}})
    replace_all(code, from, to);
  return text + code + "\n#endif\n";
}

}  // namespace coilpull
