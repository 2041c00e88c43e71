// SPDX-License-Identifier: GPL-3.0-or-later
#include "apps/input/bh_file.hpp"

#include <algorithm>
#include <cctype>
#include <cmath>
#include <optional>

#include "apps/input/column_words.hpp"
#include "apps/output/number_text.hpp"
#include "materials/constants.hpp"
#include "materials/detail/nearest_name.hpp"

namespace coilpull {
namespace {

enum class Quantity { nothing, field, flux_density, polarization, magnetization };

struct BhUnit {
  const char* words;  ///< small letters, as they are left of a header
  double in_si;
  bool of_field;
};

constexpr double oersted = 1000 / (4 * pi);  // A/m

const std::vector<BhUnit> bh_units = {
    {"a m", 1, true},           {"ka m", 1e3, true},          {"oe", oersted, true},
    {"oersted", oersted, true}, {"koe", 1e3 * oersted, true}, {"t", 1, false},
    {"tesla", 1, false},        {"mt", 1e-3, false},          {"g", 1e-4, false},
    {"gauss", 1e-4, false},     {"kg", 0.1, false},           {"kilogauss", 0.1, false}};

struct Header {
  Quantity quantity = Quantity::nothing;
  std::optional<BhUnit> unit = {};
  bool has_unit = false;
};

Quantity quantity_for(const std::vector<std::string>& words) {
  const std::string& first = words.front();
  const auto second_is = [&](const char* word) { return words.size() > 1 && words[1] == word; };
  if (first == "h" || (first == "field" && second_is("strength"))) return Quantity::field;
  if (first == "b" && (second_is("h") || second_is("mu0h"))) return Quantity::polarization;
  if (first == "b" || first == "induction" || (first == "flux" && second_is("density")))
    return Quantity::flux_density;
  if (first == "j" || first == "polarization" || first == "polarisation" || first == "4pim" ||
      first == "mu0m")
    return Quantity::polarization;
  if (first == "m" || first == "magnetization" || first == "magnetisation") return Quantity::magnetization;
  return Quantity::nothing;
}

Header read_header(const std::string& header) {
  std::vector<std::string> words;
  for (const std::string& word : words_of_header(header)) words.push_back(detail::lower_case(word));
  if (words.empty()) return {};
  Header read{quantity_for(words)};
  if (read.quantity == Quantity::nothing) return read;
  std::string left;
  for (std::size_t i = 1; i < words.size(); ++i) {
    const std::string& word = words[i];
    const bool filler = word == "per" || word == "in" || word == "strength" || word == "density" ||
                        (i == 1 && (word == "h" || word == "mu0h" || word == "b" || word == "j"));
    if (!filler) left += (left.empty() ? "" : " ") + word;
  }
  read.has_unit = !left.empty();
  for (const BhUnit& unit : bh_units)
    if (left == unit.words && unit.of_field == (read.quantity == Quantity::field)) read.unit = unit;
  return read;
}

struct BhColumns {
  std::size_t field, flux;
  Header field_header, flux_header;
};

const char* const example_header =
    "The first line names them with their units, for example H (A/m),B (T) or H [Oe];B [kG] or H (A/m),J "
    "(T).";

bool is_number(const std::string& cell) {
  return !cell.empty() && cell.find_first_not_of("+-.,0123456789eE ") == std::string::npos &&
         std::any_of(cell.begin(), cell.end(), [](unsigned char c) { return std::isdigit(c); });
}

void require_unit(const CsvFile& file, std::size_t column, const Header& header) {
  if (header.unit) return;
  const std::string allowed = header.quantity == Quantity::field ? "A/m, kA/m, Oe, kOe" : "T, mT, G, kG";
  const CsvPlace place{file.name, file.header.line, file.header.cells[column]};
  refuse_csv(place, header.has_unit ? "its unit is not known here." : "its unit is missing.",
             "Allowed: " + allowed + ".");
}

BhColumns find_columns(const CsvFile& file) {
  const CsvPlace line{file.name, file.header.line};
  const std::vector<std::string>& cells = file.header.cells;
  if (std::all_of(cells.begin(), cells.end(), is_number))
    refuse_csv(line, "the columns have no names.", example_header);
  std::optional<std::size_t> field, flux;
  for (std::size_t i = 0; i < cells.size(); ++i) {
    const Quantity quantity = read_header(cells[i]).quantity;
    if (quantity == Quantity::magnetization)
      refuse_csv({file.name, file.header.line, cells[i]}, "a magnetization is not read.",
                 "Give the polarization J = mu0 M in tesla, or B.");
    if (quantity == Quantity::nothing) continue;
    std::optional<std::size_t>& place = quantity == Quantity::field ? field : flux;
    if (place)
      refuse_csv(line, "\"" + cells[*place] + "\" and \"" + cells[i] + "\" say the same twice.",
                 "Keep one column of H, and one of B or of J.");
    place = i;
  }
  if (!field) refuse_csv(line, "there is no column of the field strength H.", example_header);
  if (!flux) refuse_csv(line, "there is no column of B or of J.", example_header);
  const BhColumns columns{*field, *flux, read_header(cells[*field]), read_header(cells[*flux])};
  require_unit(file, columns.field, columns.field_header);
  require_unit(file, columns.flux, columns.flux_header);
  return columns;
}

double value_of(const CsvFile& file, const CsvRecord& record, std::size_t column, const Header& header) {
  const std::optional<double> number = file.number(record, column);
  if (!number)
    refuse_csv(file.place(record, column), "the cell is empty.", "Every point needs both numbers.");
  if (*number < 0)
    refuse_csv(file.place(record, column), "is below 0.",
               "A curve starts at zero and rises; of a loop, keep the initial curve.");
  return *number * header.unit->in_si;
}

std::string point_words(double h, double b) {
  return "H = " + rounded(h, 6) + " A/m, B = " + rounded(b, 6) + " T";
}

void refuse_impossible(const CsvFile& file, const BhFilePoint& point) {
  const double j = point.b_T - mu0 * point.h_A_per_m;
  const CsvPlace place{file.name, point.line};
  constexpr double strongest = 2.6, farthest = 1e8;
  if (j > strongest)
    refuse_csv(place, point_words(point.h_A_per_m, point.b_T) + ": no material is polarized above 2.5 T.",
               "Are the units in the header right? 1 T is 10 kG.");
  if (point.h_A_per_m > farthest)
    refuse_csv(place, point_words(point.h_A_per_m, point.b_T) + ": no magnet makes such a field.",
               "Are the units in the header right? 1 Oe is 79.58 A/m.");
  if (point.h_A_per_m == 0 && point.b_T > 0)
    refuse_csv(place, point_words(0, point.b_T) + ": a flux density without field is a remanence.",
               "A curve starts at H = 0, B = 0; of a loop, keep the initial curve.");
}

/// Strongest first, falling all the way: only turned round.
bool runs_backwards(const std::vector<BhFilePoint>& points) {
  return points.size() > 1 &&
         std::is_sorted(points.begin(), points.end(),
                        [](const auto& a, const auto& b) { return a.h_A_per_m > b.h_A_per_m; }) &&
         points.front().h_A_per_m > points.back().h_A_per_m && points.front().b_T > points.back().b_T;
}

}  // namespace

BhFile read_bh_file(const CsvFile& file) {
  const BhColumns columns = find_columns(file);
  BhFile read{file.name, {}, {}};
  for (const CsvRecord& record : file.records) {
    const double h = value_of(file, record, columns.field, columns.field_header);
    double b = value_of(file, record, columns.flux, columns.flux_header);
    if (columns.flux_header.quantity == Quantity::polarization) b += mu0 * h;
    read.points.push_back({record.line, h, b});
    refuse_impossible(file, read.points.back());
  }
  if (runs_backwards(read.points)) {
    std::reverse(read.points.begin(), read.points.end());
    read.notes.push_back("the points ran from strong to weak field; they were turned round");
  }
  const auto above_zero = std::count_if(read.points.begin(), read.points.end(),
                                        [](const auto& point) { return point.h_A_per_m > 0; });
  if (above_zero < 2)
    refuse_csv(
        {file.name}, "a curve needs at least two points above zero.",
        "One point is a permeability: write material = { law = \"linear\", mu_r = ... } in the device file.");
  if (read.points.front().h_A_per_m > 0) {
    read.points.insert(read.points.begin(), {0, 0, 0});
    read.notes.push_back("the point H = 0, B = 0 was added");
  }
  return read;
}

std::vector<PointFault> faults_of(const BhFile& file) {
  std::vector<PointFault> faults;
  BhFilePoint last = file.points.front();
  for (std::size_t i = 1; i < file.points.size(); ++i) {
    const BhFilePoint& point = file.points[i];
    const std::string words = point_words(point.h_A_per_m, point.b_T) + ": ";
    const std::string before = last.line == 0 ? "the point before" : "line " + std::to_string(last.line);
    const std::string of_last = before + " has " + point_words(last.h_A_per_m, last.b_T) + ".";
    const double slope = (point.b_T - last.b_T) / (point.h_A_per_m - last.h_A_per_m) / mu0;
    if (point.h_A_per_m == last.h_A_per_m && point.b_T == last.b_T)
      faults.push_back({point.line, words + "repeats " + before + "."});
    else if (point.h_A_per_m == last.h_A_per_m)
      faults.push_back({point.line, words + "a second B at this H; " + of_last});
    else if (point.h_A_per_m < last.h_A_per_m)
      faults.push_back({point.line, words + "H falls; " + of_last});
    else if (point.b_T < last.b_T)
      faults.push_back({point.line, words + "B falls; " + of_last});
    else if (point.b_T == last.b_T)
      faults.push_back({point.line, words + "B does not rise; " + of_last});
    else if (slope < BhCurve::smallest_slope)
      faults.push_back({point.line, words + "B rises by " + rounded(slope, 3) +
                                        " mu0 per H, less than in air; " + of_last});
    else
      last = point;
  }
  return faults;
}

void refuse_faults(const BhFile& file) {
  constexpr std::size_t most = 10;
  const std::vector<PointFault> faults = faults_of(file);
  if (faults.empty()) return;
  std::string words;
  for (std::size_t i = 0; i < std::min(most, faults.size()); ++i)
    words += (i == 0 ? "" : "\n" + file.name + ":" + std::to_string(faults[i].line) + ": ") + faults[i].words;
  if (faults.size() > most) words += "\n... and " + std::to_string(faults.size() - most) + " more.";
  throw BadCsv(file.name + ":" + std::to_string(faults.front().line) + ": " + words +
               "\n  Correct the points, or let --smooth bring them into the shape of a curve.");
}

}  // namespace coilpull
