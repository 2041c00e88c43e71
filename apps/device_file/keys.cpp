// SPDX-License-Identifier: GPL-3.0-or-later
#include "apps/device_file/keys.hpp"

#include <algorithm>

#include "apps/device_file/exact_text.hpp"

namespace coilpull {

struct Unit {
  const char* suffix;
  double times, over;  ///< SI = number * times / over, one of them 1
};

namespace {

const std::vector<Unit> length_units = {{"_mm", 1, 1000}, {"_m", 1, 1}, {"_in", 0.0254, 1}};
const std::vector<Unit> current_units = {{"_A", 1, 1}, {"_mA", 1, 1000}};
const std::vector<Unit> flux_density_units = {{"_T", 1, 1}, {"_mT", 1, 1000}, {"_G", 1, 10000}};

const char* const range_example = "{ from = 0, to = 50, points = 51 }";

struct Found {
  Value value;
  const Unit* unit;
};

double in_si(double read, const Unit& unit) { return read * unit.times / unit.over; }

Quantity quantity(double read, const Found& found) {
  return {in_si(read, *found.unit), found.value, read, found.unit};
}

std::vector<std::string> spellings(const std::vector<std::string>& stems, const std::vector<Unit>& units) {
  std::vector<std::string> keys;
  for (const std::string& stem : stems)
    for (const Unit& unit : units) keys.push_back(stem + unit.suffix);
  return keys;
}

std::optional<Found> find_in_units(const Table& table, const std::vector<std::string>& stems,
                                   const std::vector<Unit>& units) {
  std::optional<Found> found;
  for (const std::string& stem : stems)
    for (const Unit& unit : units) {
      const auto value = table.find(stem + unit.suffix);
      if (value && found)
        refuse(value->place,
               "says again what " + found->value.place.key + " = " + found->value.place.value +
                   " says in line " + std::to_string(found->value.place.line) + ".",
               "Keep one of the two.");
      if (value) found = Found{*value, &unit};
    }
  return found;
}

std::vector<double> numbers_of_range(const Value& value, const SourceText& text) {
  const Table range = inline_table(value, text, range_example);
  const std::string advice = std::string("For example ") + range_example;
  for (const char* key : {"from", "to", "points"}) range.find(key);
  range.refuse_unread_keys();
  const double from = number(range.need("from", advice));
  const double to = number(range.need("to", advice));
  const Value points = range.need("points", advice);
  const long n = whole_number(points);
  if (n < 2)
    refuse(points.place, "a range needs at least 2 points.", "A single value is written as a number.");
  if (n > static_cast<long>(most_rows))
    refuse(points.place, "a table has at most " + std::to_string(most_rows) + " rows.");
  if (!(from < to))
    refuse(value.place, "from has to be less than to.",
           "A table runs upwards; the direction it is walked in does not change the force.");
  std::vector<double> numbers;
  numbers.reserve(static_cast<std::size_t>(n));
  const auto last = static_cast<double>(n - 1);
  for (long k = 0; k < n; ++k) {  // not from + k * step: whole steps stay whole, 0 is 0 when symmetric
    const auto i = static_cast<double>(k);
    numbers.push_back((from * (last - i) + to * i) / last);
  }
  numbers.front() = from;
  numbers.back() = to;
  return numbers;
}

std::vector<double> numbers_of_list(const Value& value) {
  std::vector<double> numbers;
  for (const toml::node& element : *value.node->as_array()) {
    Value one = value;
    one.place.line = static_cast<int>(element.source().begin.line);
    one.node = &element;
    numbers.push_back(number(one));
  }
  if (numbers.empty()) refuse(value.place, "the list is empty.", "It needs at least one number.");
  if (numbers.size() > most_rows)
    refuse(value.place, "a table has at most " + std::to_string(most_rows) + " rows.");
  return numbers;
}

std::optional<Quantity> find_number(const Table& table, const std::string& stem,
                                    const std::vector<Unit>& units) {
  const auto found = find_in_units(table, {stem}, units);
  if (!found) return std::nullopt;
  return quantity(number(found->value), *found);
}

std::optional<Quantities> find_numbers(const Table& table, const std::string& stem,
                                       const std::vector<Unit>& units) {
  const auto found = find_in_units(table, {stem}, units);
  if (!found) return std::nullopt;
  Quantities read{{}, found->value};
  if (read.value.node->is_table())
    read.si = numbers_of_range(read.value, table.text());
  else if (read.value.node->is_array())
    read.si = numbers_of_list(read.value);
  else if (read.value.node->is_number())
    read.si = {number(read.value)};
  else
    refuse(read.value.place, "needs a number, a list or a range.",
           std::string("For example 5, [0, 2, 5] or ") + range_example);
  for (double& one : read.si) one = in_si(one, *found->unit);
  return read;
}

}  // namespace

std::optional<Quantity> find_length_m(const Table& table, const std::string& stem) {
  return find_number(table, stem, length_units);
}

Quantity length_m(const Table& table, const std::string& stem, const std::string& advice) {
  if (const auto length = find_length_m(table, stem)) return *length;
  table.refuse_missing(spellings({stem}, length_units), advice);
}

Ends ends_about(const Quantity& centre, const Quantity& length) {
  if (centre.unit == nullptr || centre.unit != length.unit)
    return {centre.si - length.si / 2, centre.si + length.si / 2};
  return {in_si(centre.written - length.written / 2, *centre.unit),
          in_si(centre.written + length.written / 2, *centre.unit)};
}

std::optional<Quantity> find_radius_m(const Table& table, const std::string& prefix) {
  const std::string radius = prefix + "radius", diameter = prefix + "diameter";
  const auto found = find_in_units(table, {radius, diameter}, length_units);
  if (!found) return std::nullopt;
  const bool is_diameter = found->value.place.key.find(diameter) != std::string::npos;
  const double read = number(found->value);
  return quantity(is_diameter ? read / 2 : read, *found);
}

Quantity radius_m(const Table& table, const std::string& prefix, const std::string& advice) {
  if (const auto radius = find_radius_m(table, prefix)) return *radius;
  table.refuse_missing(spellings({prefix + "radius", prefix + "diameter"}, length_units), advice);
}

std::optional<Quantities> find_lengths_m(const Table& table, const std::string& stem) {
  return find_numbers(table, stem, length_units);
}

std::optional<Quantities> find_currents_A(const Table& table, const std::string& stem) {
  return find_numbers(table, stem, current_units);
}

std::optional<Quantity> find_flux_density_T(const Table& table, const std::string& stem) {
  return find_number(table, stem, flux_density_units);
}

Quantity flux_density_T(const Table& table, const std::string& stem, const std::string& advice) {
  if (const auto density = find_flux_density_T(table, stem)) return *density;
  table.refuse_missing(spellings({stem}, flux_density_units), advice);
}

std::optional<QuotedRange> find_flux_density_range_T(const Table& table, const std::string& stem) {
  const auto found = find_in_units(table, {stem}, flux_density_units);
  if (!found) return std::nullopt;
  const auto in_T = [&](const Value& value) { return in_si(number(value), *found->unit); };
  if (!found->value.node->is_table()) {
    const double alike = in_T(found->value);
    return QuotedRange{alike, alike, alike, found->value};
  }
  const Table range = inline_table(found->value, table.text(), "");
  const std::string advice = "For example { min = 2, typical = 3, max = 4 }, or one number for all three";
  for (const char* key : {"min", "typical", "max"}) range.find(key);
  range.refuse_unread_keys();
  const QuotedRange read{in_T(range.need("min", advice)), in_T(range.need("typical", advice)),
                         in_T(range.need("max", advice)), found->value};
  if (!(read.least <= read.typical && read.typical <= read.most))
    refuse(found->value.place, "min, typical and max have to rise.",
           "Minus signs count: -4 is less than -2.");
  return read;
}

std::optional<double> find_between(const Table& table, const std::string& key, double least, double most,
                                   const std::string& advice) {
  const auto value = table.find(key);
  if (!value) return std::nullopt;
  const double given = number(*value);
  if (!(given >= least && given <= most))
    refuse(value->place, "has to lie between " + toml_number(least) + " and " + toml_number(most) + ".",
           advice);
  return given;
}

void refuse_repeated(const Quantities& numbers) {
  std::vector<double> sorted = numbers.si;
  std::sort(sorted.begin(), sorted.end());
  if (std::adjacent_find(sorted.begin(), sorted.end()) != sorted.end())
    refuse(numbers.value.place, "a number stands twice in the list.", "Each would give the same rows again.");
}

}  // namespace coilpull
