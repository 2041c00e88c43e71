// SPDX-License-Identifier: GPL-3.0-or-later
#include "apps/exchange/coenergy_table.hpp"

#include <algorithm>
#include <cmath>
#include <limits>
#include <map>
#include <set>
#include <utility>

#include "apps/input/force_table_file.hpp"
#include "apps/output/number_text.hpp"

namespace coilpull {
namespace {

const std::string head = "current_", tail = "_A";

std::vector<std::string> circuits_of(const CsvFile& file) {
  std::vector<std::string> circuits;
  for (const std::string& name : file.header.cells)
    if (name.size() > head.size() + tail.size() && name.rfind(head, 0) == 0 &&
        name.compare(name.size() - tail.size(), tail.size(), tail) == 0)
      circuits.push_back(name.substr(head.size(), name.size() - head.size() - tail.size()));
  return circuits;
}

std::string chosen(const CsvFile& file, const std::vector<std::string>& circuits,
                   const std::string& circuit) {
  if (circuits.empty())
    refuse_csv({file.name, file.header.line}, "this is no force table: it has no column current_<circuit>_A.",
               "Name the force_table.csv that `coilpull table` wrote.");
  if (circuit.empty() && circuits.size() == 1) return circuits[0];
  if (std::find(circuits.begin(), circuits.end(), circuit) != circuits.end()) return circuit;
  std::string names;
  for (const std::string& name : circuits) names += (names.empty() ? "" : ", ") + name;
  refuse_csv(
      {file.name, file.header.line},
      circuit.empty() ? "the table has several circuits." : "the table has no circuit " + circuit + ".",
      "Choose by --circuit one of: " + names + ".");
}

/// "NaN" is what the table writes for what is not usable; such a row is left out by the fit.
double number_or_nan(const CsvFile& file, std::size_t record, const std::string& column) {
  if (file.text_at(record, column) == "NaN") return std::numeric_limits<double>::quiet_NaN();
  return file.number_at(record, column);
}

std::map<std::string, double> smallest_currents(const CsvFile& file, const std::vector<std::string>& circuits,
                                                const std::string& driven) {
  std::map<std::string, double> held;
  for (const std::string& other : circuits) {
    if (other == driven) continue;
    for (std::size_t k = 0; k < file.records.size(); ++k) {
      const double current = file.number_at(k, head + other + tail);
      const auto known = held.emplace(other, current).first;
      if (std::abs(current) < std::abs(known->second)) known->second = current;
    }
  }
  return held;
}

std::vector<double> split(const std::vector<double>& places, int parts) {
  std::vector<double> finer = {places.front()};
  for (std::size_t k = 1; k < places.size(); ++k)
    for (int part = 1; part <= parts; ++part)
      finer.push_back(part == parts ? places[k] : places[k - 1] + (places[k] - places[k - 1]) * part / parts);
  return finer;
}

}  // namespace

CircuitRows rows_of_circuit(const CsvFile& file, const std::string& circuit) {
  const std::vector<std::string> circuits = circuits_of(file);
  CircuitRows found{chosen(file, circuits, circuit), {}, {}};
  const auto held = smallest_currents(file, circuits, found.circuit);
  for (const auto& [name, current] : held)
    found.others += (found.others.empty() ? "" : ", ") + name + " at " + shortest(current) + " A";
  const std::string linkage = "flux_linkage_" + found.circuit + "_Wb";
  const std::string linkage_bar = "flux_linkage_numerical_error_" + found.circuit + "_Wb";
  std::set<std::pair<double, double>> places;
  std::set<double> displacements, currents;
  for (std::size_t k = 0; k < file.records.size(); ++k) {
    const auto here = [&](const auto& other) {
      return file.number_at(k, head + other.first + tail) == other.second;
    };
    if (!std::all_of(held.begin(), held.end(), here)) continue;
    const CoenergyRow row{
        file.number_at(k, "displacement_mm") / 1000,
        file.number_at(k, head + found.circuit + tail),
        {number_or_nan(file, k, "force_N"), number_or_nan(file, k, "force_numerical_error_N")},
        {number_or_nan(file, k, linkage), number_or_nan(file, k, linkage_bar)},
        number_or_nan(file, k, "coenergy_J")};
    if (!places.emplace(row.displacement, row.current_A).second)
      refuse_csv({file.name, file.records[k].line}, "this displacement and current stand twice in the table.",
                 "Name the table as `coilpull table` wrote it.");
    if (std::isfinite(row.force_N.value))
      displacements.insert(row.displacement), currents.insert(row.current_A);
    found.rows.push_back(row);
  }
  if (displacements.size() < 2 || currents.size() < 2)
    refuse_csv({file.name},
               "usable rows of circuit " + found.circuit + " stand at " +
                   std::to_string(displacements.size()) + " displacements and " +
                   std::to_string(currents.size()) + " currents" +
                   (found.others.empty() ? "" : ", with " + found.others) + ".",
               "Two of each at least are needed: solve the table with more of them.");
  refuse_no_grid(file.name, displacements.size(), currents.size(), found.rows.size());
  return found;
}

SampledTable sampled(const CoenergyFunction& function, int parts) {
  SampledTable table{
      {}, {}, {}, split(function.displacement().places(), parts), split(function.current().places(), parts),
      {}, 0,  0};
  for (const double z : table.displacement)
    for (const double i : table.current_A) table.points.push_back(function.at(z, i));
  for (std::size_t k = 1; k < table.displacement.size(); ++k)
    for (std::size_t l = 1; l < table.current_A.size(); ++l) {
      const double z = (table.displacement[k - 1] + table.displacement[k]) / 2;
      const double i = (table.current_A[l - 1] + table.current_A[l]) / 2;
      const auto miss = [&](double CoenergyPoint::*what) {
        const double a = table.at(k - 1, l - 1).*what, b = table.at(k - 1, l).*what;
        const double c = table.at(k, l - 1).*what, d = table.at(k, l).*what;
        return std::max({std::abs((a + b + c + d) / 4 - function.at(z, i).*what),
                         std::abs((a + c) / 2 - function.at(z, table.current_A[l - 1]).*what),
                         std::abs((a + b) / 2 - function.at(table.displacement[k - 1], i).*what)});
      };
      table.force_between_N = std::max(table.force_between_N, miss(&CoenergyPoint::force_N));
      table.linkage_between_Wb = std::max(table.linkage_between_Wb, miss(&CoenergyPoint::linkage_Wb));
    }
  return table;
}

std::vector<NamedArray> arrays_of(const SampledTable& table) {
  const std::string z = "displacement_m", i = "current_A";
  std::vector<NamedArray> arrays = {
      {z, "m", "shift of the moving parts along +z", {z}, table.displacement},
      {i, "A", "current of the circuit, counter-clockwise seen from +z", {i}, table.current_A}};
  const auto add = [&](const char* name, const char* unit, const char* meaning, double CoenergyPoint::*what) {
    NamedArray array{name, unit, meaning, {z, i}, {}};
    for (const CoenergyPoint& point : table.points) array.values.push_back(point.*what);
    arrays.push_back(std::move(array));
  };
  add("coenergy_J", "J", "magnetic coenergy W'", &CoenergyPoint::coenergy_J);
  add("force_N", "N", "axial force on the moving parts along +z, dW'/dz", &CoenergyPoint::force_N);
  add("flux_linkage_Wb", "Wb", "flux linkage of all turns, dW'/di", &CoenergyPoint::linkage_Wb);
  add("force_slope_N_per_m", "N m-1", "d2W'/dz2", &CoenergyPoint::force_slope);
  add("force_per_ampere_N_per_A", "N A-1", "d2W'/dz di, also the voltage of motion per m/s",
      &CoenergyPoint::force_per_ampere);
  add("inductance_H", "H", "incremental inductance, d2W'/di2", &CoenergyPoint::inductance_H);
  return arrays;
}

}  // namespace coilpull
