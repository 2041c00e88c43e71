// SPDX-License-Identifier: GPL-3.0-or-later
#include "apps/output/table_columns.hpp"

#include <algorithm>

#include "apps/output/number_text.hpp"
#include "materials/detail/nan.hpp"

namespace coilpull {
namespace {

template <class T>
T at_or(const std::vector<T>& values, std::size_t i, T otherwise) {
  return i < values.size() ? values[i] : otherwise;
}

using ValueOfRow = std::function<double(const Measurement&)>;

Column number(std::string name, std::string unit, std::string meaning, ValueOfRow value) {
  return {std::move(name), std::move(unit), std::move(meaning), Cell::number,
          [value = std::move(value)](const Measurement& row) { return shortest(value(row)); }};
}

void add_place_and_current(const ForceTable& table, std::vector<Column>& columns) {
  columns.push_back(number("displacement_mm", "mm",
                           "Shift of the moving parts along +z from where they are drawn.",
                           [](const Measurement& row) { return in_mm(row.displacement); }));
  columns.push_back(number("clearance_mm", "mm", "Smallest distance between moving and fixed parts.",
                           [](const Measurement& row) { return in_mm(row.clearance); }));
  for (std::size_t i = 0; i < table.circuits.size(); ++i)
    columns.push_back(
        number("current_" + table.circuits[i] + "_A", "A",
               "Current in circuit " + table.circuits[i] + ", positive counter-clockwise seen from +z.",
               [i](const Measurement& row) { return as_written(at_or(row.currents_A, i, nan)); }));
}

void add_force_and_linkage(const ForceTable& table, std::vector<Column>& columns) {
  columns.push_back(number("force_N", "N", "Axial force on the moving parts, positive towards +z.",
                           [](const Measurement& row) { return row.force_N.value; }));
  columns.push_back(
      number("force_numerical_error_N", "N",
             "Half width of the numerical error bar of force_N: of the computation only, not of "
             "material, size or temperature.",
             [](const Measurement& row) { return row.force_N.error; }));
  for (std::size_t i = 0; i < table.circuits.size(); ++i) {
    const std::string& circuit = table.circuits[i];
    columns.push_back(
        number("flux_linkage_" + circuit + "_Wb", "Wb",
               "Flux linked with all turns of circuit " + circuit + ", the magnets' share included.",
               [i](const Measurement& row) {
                 return at_or(row.linkage_Wb, i, Measured{nan, nan}).value;
               }));
    columns.push_back(number("flux_linkage_numerical_error_" + circuit + "_Wb", "Wb",
                             "Half width of the numerical error bar of flux_linkage_" + circuit + "_Wb.",
                             [i](const Measurement& row) {
                               return at_or(row.linkage_Wb, i, Measured{nan, nan}).error;
                             }));
  }
  columns.push_back(number("coenergy_J", "J",
                           "Sum of flux linkage times current, less the stored energy; a magnet stores "
                           "(B - Br)^2 / (2 mu0 mu_r) per volume.",
                           [](const Measurement& row) { return row.coenergy_J; }));
}

void add_flux_densities(const ForceTable& table, std::vector<Column>& columns) {
  for (std::size_t i = 0; i < table.cores.size(); ++i)
    columns.push_back(number("B_p99_" + table.cores[i] + "_T", "T",
                             "Flux density that 99 % of the volume of " + table.cores[i] + " stays below.",
                             [i](const Measurement& row) { return at_or(row.b_p99_T, i, nan); }));
  for (std::size_t i = 0; i < table.sensors.size(); ++i) {
    const std::string& sensor = table.sensors[i];
    columns.push_back(number("B_r_" + sensor + "_T", "T",
                             "Flux density away from the axis at sensor " + sensor + "; it has no error bar.",
                             [i](const Measurement& row) {
                               return at_or(row.sensors, i, SensorField{nan, nan}).br_T;
                             }));
    columns.push_back(number("B_z_" + sensor + "_T", "T",
                             "Flux density along +z at sensor " + sensor + "; it has no error bar.",
                             [i](const Measurement& row) {
                               return at_or(row.sensors, i, SensorField{nan, nan}).bz_T;
                             }));
  }
}

bool has_slopes(const ForceTable& table) {
  return std::any_of(table.rows.begin(), table.rows.end(), [](const Measurement& row) { return row.slopes; });
}

/// A number of the row's slopes; NaN where the row has none.
ValueOfRow of_slopes(std::function<double(const Slopes&)> value) {
  return [value = std::move(value)](const Measurement& row) { return row.slopes ? value(*row.slopes) : nan; };
}

void add_slopes(const ForceTable& table, std::vector<Column>& columns) {
  columns.push_back(number("force_slope_N_per_m", "N/m", "Slope of force_N along the displacement.",
                           of_slopes([](const Slopes& slopes) { return slopes.force_per_displacement; })));
  for (std::size_t k = 0; k < table.circuits.size(); ++k)
    columns.push_back(number("force_per_ampere_" + table.circuits[k] + "_N_per_A", "N/A",
                             "Slope of force_N along the current in " + table.circuits[k] +
                                 "; also that of its flux linkage along the displacement.",
                             of_slopes([k](const Slopes& slopes) { return slopes.force_per_current[k]; })));
  for (std::size_t k = 0; k < table.circuits.size(); ++k)
    for (std::size_t l = 0; l < table.circuits.size(); ++l)
      columns.push_back(number("incremental_inductance_" + table.circuits[k] + "_" + table.circuits[l] + "_H",
                               "H",
                               "Slope of the flux linkage of " + table.circuits[k] +
                                   " along the current in " + table.circuits[l] + ".",
                               of_slopes([k, l](const Slopes& slopes) { return slopes.inductance[k][l]; })));
}

/// A number of the state of magnet k.
ValueOfRow of_magnet(std::size_t k, double MagnetState::*value) {
  return [k, value](const Measurement& row) { return k < row.magnets.size() ? row.magnets[k].*value : nan; };
}

/// "none", the magnets joined by "+", or "unknown" where no number of the row is usable.
std::string names_past_knee(const std::vector<std::string>& magnets, const Measurement& row) {
  if (row.magnets.empty()) return "unknown";
  std::string names;
  for (std::size_t k = 0; k < row.magnets.size(); ++k)
    if (row.magnets[k].changed_for_good()) names += (names.empty() ? "" : "+") + magnets[k];
  return names.empty() ? "none" : names;
}

void add_magnets(const ForceTable& table, std::vector<Column>& columns) {
  if (table.magnets.empty()) return;
  for (std::size_t k = 0; k < table.magnets.size(); ++k) {
    const std::string& magnet = table.magnets[k];
    columns.push_back(
        number("B_p01_" + magnet + "_T", "T",
               "Flux density along the magnetisation that 1 % of the volume of " + magnet + " stays below.",
               of_magnet(k, &MagnetState::b_p01_T)));
    columns.push_back(number("B_mean_" + magnet + "_T", "T",
                             "Flux density along the magnetisation, mean over the volume of " + magnet + ".",
                             of_magnet(k, &MagnetState::b_mean_T)));
    columns.push_back(number("past_knee_" + magnet, "",
                             "Fraction of the volume of " + magnet +
                                 " that is driven past its knee; NaN when the knee is not known.",
                             of_magnet(k, &MagnetState::past_knee)));
  }
  columns.push_back(
      {"magnets_past_knee", "",
       "Magnets of which more than 1 % is past the knee, joined by +, or none: what such a row says is "
       "not true, because the magnet is changed for good.",
       Cell::word,
       [magnets = table.magnets](const Measurement& row) { return names_past_knee(magnets, row); }});
}

void add_spread(const ForceTable& table, std::vector<Column>& columns) {
  if (std::none_of(table.rows.begin(), table.rows.end(), [](const Measurement& row) { return row.spread; }))
    return;
  const auto of_spread = [](double ForceRange::*end) {
    return [end](const Measurement& row) { return row.spread ? (*row.spread).*end : nan; };
  };
  columns.push_back(number("force_low_N", "N", "Lowest force_N that the stated ranges of the input leave.",
                           of_spread(&ForceRange::low_N)));
  columns.push_back(number("force_high_N", "N", "Highest force_N that the stated ranges of the input leave.",
                           of_spread(&ForceRange::high_N)));
}

}  // namespace

std::vector<Column> table_columns(const ForceTable& table) {
  std::vector<Column> columns;
  add_place_and_current(table, columns);
  add_force_and_linkage(table, columns);
  add_flux_densities(table, columns);
  for (std::size_t k = 0; k < table.bodies.size(); ++k)
    columns.push_back(
        number("force_" + table.bodies[k] + "_N", "N",
               "Axial force on " + table.bodies[k] + ", positive towards +z: what holds it must bear it.",
               [k](const Measurement& row) { return at_or(row.body_force_N, k, nan); }));
  if (has_slopes(table)) add_slopes(table, columns);
  for (std::size_t k = 0; k < table.approximations.size(); ++k)
    columns.push_back(number("force_" + table.approximations[k] + "_N", "N",
                             "Axial force on the moving parts by a closed formula, " +
                                 table.approximations[k] +
                                 ": to be held against force_N, which is the answer.",
                             [k](const Measurement& row) { return at_or(row.approximate_force_N, k, nan); }));
  add_magnets(table, columns);
  add_spread(table, columns);
  columns.push_back({"newton_steps", "", "Newton steps spent on the row.", Cell::count,
                     [](const Measurement& row) { return std::to_string(row.newton_steps); }});
  columns.push_back(
      {"status", "",
       "ok, or what is wrong: tolerance_not_met (value and bar stand, the bar is wider than asked), "
       "not_converged, meshing_failed, stopped (numbers are NaN).",
       Cell::word, [](const Measurement& row) { return std::string(word_for(row.status)); }});
  return columns;
}

}  // namespace coilpull
