// SPDX-License-Identifier: GPL-3.0-or-later
// Magnets of recoil permeability 1 with coils and with each other in air, by the program's own tables. The
// published thin coil is a sheet of radius 10.25 mm; ours is 0.5 mm thick, and the ratio of the closed
// formulas takes that off again.
#include "apps/validation/families.hpp"
#include "apps/validation/recompute.hpp"
#include "solver/closed_form/axial_magnet.hpp"

namespace coilpull {
namespace {

struct Rows {
  std::vector<std::size_t> at;    ///< in the file
  std::vector<double> positions;  ///< gap or distance of centres [m]
};

Rows rows_of(const CsvFile& table, const std::string& name, const std::string& described) {
  Rows rows;
  for (std::size_t i = 0; i < table.records.size(); ++i) {
    if (table.text_at(i, "case") != name) continue;
    if (table.text_at(i, "description").find(described) == std::string::npos) continue;
    rows.at.push_back(i);
    rows.positions.push_back(1e-3 * number_after(table.text_at(i, "position"), "="));
  }
  return rows;
}

Published row_of(const Source* source, const CsvFile& table, std::size_t row) {
  const std::string& words = table.text_at(row, "description");
  return {source, words + ", " + table.text_at(row, "position") + ": force", "N", table.text_at(row, "F_N")};
}

/// Magnet and coil; at position 0 their centres are `apart`.
struct MagnetAndCoil {
  const char* name;
  double radius, length, remanence_T;
  Box coil;
  double turns, current_A, apart;
};

const MagnetAndCoil pairs[] = {
    {"A-thin", 0.009, 0.010, 1.0, {0.010, 0.0105, -0.010, 0.010}, 40, 1, 0},
    {"B-thick", 0.009, 0.010, 1.0, {0.010, 0.015, -0.010, 0.010}, 100, 1, 0},
    {"D-thick", 0.010, 0.010, 1.3, {0.004, 0.014, -0.010, 0.010}, 800, 2, 0.015},
    {"E-single", 0.0108, 0.0217, 1.0, {0.0118, 0.0458, -0.0295, 0.0295}, 2006, 1, 0},
    {"E-dual-half", 0.0108, 0.0217, 1.0, {0.0118, 0.0338, -0.0295, 0.0295}, 1298, 1, 0}};

void compare(Record& record, const Source* source, const CsvFile& table, const MagnetAndCoil& pair) {
  const Rows rows = rows_of(table, pair.name, "");
  const Box section{0, pair.radius, -0.5 * pair.length, 0.5 * pair.length};
  std::vector<double> distances;
  for (const double position : rows.positions) distances.push_back(pair.apart + position);
  const Device device =
      in_air({coil_of("coil", pair.coil, pair.turns)}, {magnet_of("magnet", section, pair.remanence_T)});
  const ForceTable ours = swept(device, distances, {{pair.current_A}});
  const double ampere_turns = pair.turns * pair.current_A;
  const bool is_sheet = std::string(pair.name) == "A-thin";
  const CurrentSheet sheet{0.01025, pair.coil.z_from, pair.coil.z_to};
  for (std::size_t k = 0; k < rows.at.size(); ++k) {
    const AxialMagnet there{{0, pair.radius, section.z_from + distances[k], section.z_to + distances[k]},
                            pair.remanence_T};
    const double wound = force_on(there, pair.coil, ampere_turns);
    const double exact = is_sheet ? force_on(there, sheet, ampere_turns) : wound;
    const Measured force = ours.rows[k].force_N;
    const Published published = row_of(source, table, rows.at[k]);
    record.by_finite_elements(published, {force.value * exact / wound, force.error * exact / wound});
    record.by_formula(published, exact, -1e-11 * exact);
  }
}

struct TwoMagnets {
  const char* described;
  double lower_radius, upper_radius, length, remanence_T;
};

const TwoMagnets two_magnets[] = {{"equal 10x10 mm", 0.005, 0.005, 0.010, 1.0},
                                  {"equal discs 20x5", 0.010, 0.010, 0.005, 1.2},
                                  {"unequal r 10 and 5", 0.010, 0.005, 0.010, 1.3}};

void compare(Record& record, const Source* source, const CsvFile& table, const TwoMagnets& two) {
  const Rows rows = rows_of(table, "F-magnets", two.described);
  const Box lower{0, two.lower_radius, -two.length, 0}, upper{0, two.upper_radius, 0, two.length};
  const Device device =
      in_air({}, {magnet_of("lower", lower, two.remanence_T), magnet_of("upper", upper, two.remanence_T)});
  const ForceTable ours = swept(device, rows.positions, {{}});
  for (std::size_t k = 0; k < rows.at.size(); ++k) {
    const Published published = row_of(source, table, rows.at[k]);
    record.by_finite_elements(published, ours.rows[k].force_N);
    const Box there{0, two.upper_radius, rows.positions[k], rows.positions[k] + two.length};
    const double exact = force_on(AxialMagnet{there, two.remanence_T}, AxialMagnet{lower, two.remanence_T});
    record.by_formula(published, exact, -1e-11 * exact);
  }
}

}  // namespace

void check_axial_forces(Record& record) {
  const std::string file = "axial_forces.csv";
  const Source* coils =
      record.source("Robertson 2011, magnet and coil",
                    "W. Robertson, B. Cazzolato, A. Zander, IEEE Trans. Magn. 47 (2011) 2045: axial force "
                    "between a cylinder magnet "
                    "and a coil; closed elliptic form against quadrature of Maxwell's formula",
                    file);
  const Source* magnets =
      record.source("two cylinder magnets",
                    "Axial force between two coaxial cylinder magnets, as two pairs of current "
                    "sheets and by quadrature of Maxwell's formula",
                    file);
  const CsvFile table = read_published(file);
  for (const MagnetAndCoil& pair : pairs) compare(record, coils, table, pair);
  for (const TwoMagnets& two : two_magnets) compare(record, magnets, table, two);
}

}  // namespace coilpull
