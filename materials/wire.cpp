// SPDX-License-Identifier: GPL-3.0-or-later
#include "materials/wire.hpp"

#include <algorithm>
#include <cmath>
#include <fstream>
#include <sstream>
#include <string>

#include "materials/bad_material.hpp"
#include "materials/constants.hpp"
#include "materials/data_directory.hpp"
#include "materials/detail/nearest_name.hpp"
#include "materials/detail/number_text.hpp"

namespace coilpull {

namespace {

using detail::number_text;

std::vector<std::string> cells_of(const std::string& line) {
  std::vector<std::string> cells;
  std::istringstream stream(line);
  for (std::string cell; std::getline(stream, cell, ',');) cells.push_back(cell);
  return cells;
}

/// Diameters in mm without the tail of 0.1 um that conversion leaves.
std::string mm_text(double metres) { return number_text(std::round(metres * 1e9) / 1e6); }

/// Reads named columns, one line after the other.
struct Columns {
  const std::filesystem::path& file;
  std::vector<std::string> names;

  double metres(const std::vector<std::string>& cells, const std::string& name, int line) const {
    const auto at = static_cast<std::size_t>(std::find(names.begin(), names.end(), name) - names.begin());
    char* end = nullptr;
    const double mm = at < cells.size() ? std::strtod(cells[at].c_str(), &end) : 0;
    if (!(mm > 0) || *end != '\0')
      throw BadMaterial(
          name, file.string() + ":" + std::to_string(line) + ": " + name + " must be a number above 0");
    return 1e-3 * mm;
  }
};

}  // namespace

Grade insulation_grade(std::string_view words) {
  const std::string lower = detail::lower_case(words);
  if (lower == "grade 1") return Grade::grade_1;
  if (lower == "grade 2") return Grade::grade_2;
  throw BadMaterial("insulation", "insulation = \"" + std::string(words) +
                                      "\": allowed are \"grade 1\" and \"grade 2\" (enamel of IEC 60317)");
}

WireTable::WireTable(const std::filesystem::path& csv) {
  std::ifstream stream(csv);
  if (!stream) throw BadMaterial("", csv.string() + ": cannot be read");
  Columns columns{csv, {}};
  std::string text;
  for (int line = 1; std::getline(stream, text); ++line) {
    if (text.empty() || text[0] == '#') continue;
    const std::vector<std::string> cells = cells_of(text);
    if (columns.names.empty()) {
      columns.names = cells;
      continue;
    }
    const double bare = columns.metres(cells, "d_nom_mm", line);
    rows_.push_back(
        {bare,
         {columns.metres(cells, "OD_g1_max", line) - bare, columns.metres(cells, "OD_g2_max", line) - bare}});
    if (rows_.size() > 1 && bare <= rows_[rows_.size() - 2].bare_m)
      throw BadMaterial("d_nom_mm", csv.string() + ":" + std::to_string(line) + ": d_nom_mm must rise");
  }
  if (rows_.empty()) throw BadMaterial("", csv.string() + ": no wire sizes in it");
}

RoundWireSize WireTable::size(double bare_diameter_m, Grade grade) const {
  constexpr double same = 1e-9;  // relative: 0.71 mm read from a file is the table's 0.71 mm
  if (!(bare_diameter_m >= rows_.front().bare_m * (1 - same) &&
        bare_diameter_m <= rows_.back().bare_m * (1 + same)))
    throw BadMaterial("diameter_mm", "bare wire diameter " + mm_text(bare_diameter_m) +
                                         " mm: the table of enamelled wire reaches from " +
                                         mm_text(rows_.front().bare_m) + " to " +
                                         mm_text(rows_.back().bare_m) + " mm");
  const auto g = static_cast<std::size_t>(grade);
  const auto above = std::find_if(rows_.begin(), rows_.end(),
                                  [&](const Row& row) { return row.bare_m >= bare_diameter_m * (1 - same); });
  if (above->bare_m <= bare_diameter_m * (1 + same))
    return {bare_diameter_m, above->bare_m + above->increase_m[g]};
  const Row& below = *(above - 1);
  const double t = (bare_diameter_m - below.bare_m) / (above->bare_m - below.bare_m);
  return {bare_diameter_m, bare_diameter_m + (1 - t) * below.increase_m[g] + t * above->increase_m[g]};
}

std::vector<double> WireTable::nominal_m() const {
  std::vector<double> all;
  for (const Row& row : rows_) all.push_back(row.bare_m);
  return all;
}

WireTable standard_wire_table() { return WireTable(data_directory() / "wire/enamelled_round_iec60317.csv"); }

RoundWireSize wire_size(double bare_diameter_m, Grade grade) {
  return standard_wire_table().size(bare_diameter_m, grade);
}

double awg_bare_diameter(int gauge) {
  if (gauge < -3 || gauge > 50)
    throw BadMaterial("awg", "awg = " + std::to_string(gauge) + ": allowed are -3 (0000) to 50");
  constexpr double inch = 0.0254;
  return 0.005 * inch * std::pow(92.0, (36 - gauge) / 39.0);
}

namespace {

struct Conductor {
  double resistivity, per_kelvin;  ///< at 20 degC [ohm m], [1/K]
  double density;                  ///< [kg/m^3]
};

Conductor conductor_of(Metal metal) {
  return metal == Metal::copper ? Conductor{1.7241e-8, 0.00393, 8890} : Conductor{2.8264e-8, 0.00403, 2703};
}

double section_of(double diameter_m) { return 0.25 * pi * diameter_m * diameter_m; }

}  // namespace

const char* word_for(Metal metal) { return metal == Metal::copper ? "copper" : "aluminium"; }

Metal metal_called(std::string_view words) {
  for (const Metal metal : {Metal::copper, Metal::aluminium})
    if (detail::lower_case(words) == word_for(metal)) return metal;
  throw BadMaterial("metal",
                    "metal = \"" + std::string(words) + "\": allowed are \"copper\" and \"aluminium\"");
}

double resistance_per_metre(Metal metal, double bare_diameter_m, double temperature_degC) {
  const Conductor conductor = conductor_of(metal);
  return conductor.resistivity * (1 + conductor.per_kelvin * (temperature_degC - 20)) /
         section_of(bare_diameter_m);
}

double resistance_rise_per_kelvin(Metal metal) { return conductor_of(metal).per_kelvin; }

double heat_capacity(Metal metal) { return metal == Metal::copper ? 385 : 897; }

double mass_per_metre(Metal metal, double bare_diameter_m) {
  return conductor_of(metal).density * section_of(bare_diameter_m);
}

}  // namespace coilpull
