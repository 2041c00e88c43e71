// SPDX-License-Identifier: GPL-3.0-or-later
#include "apps/advice/drive.hpp"

#include <algorithm>
#include <cmath>

#include "apps/exchange/coenergy_table.hpp"
#include "apps/output/csv_table.hpp"

namespace coilpull {
namespace {

std::vector<double> sorted_once(std::vector<double> numbers) {
  std::sort(numbers.begin(), numbers.end());
  numbers.erase(std::unique(numbers.begin(), numbers.end()), numbers.end());
  return numbers;
}

/// The entries next to x: below or at it, above or at it.
std::pair<double, double> around(const std::vector<double>& rising, double x) {
  const auto above = std::lower_bound(rising.begin(), rising.end(), x);
  if (above == rising.end()) return {rising.back(), rising.back()};
  if (above == rising.begin() || *above == x) return {*above, *above};
  return {*(above - 1), *above};
}

/// The entry one before or after one of them; at an end itself.
double beside(const std::vector<double>& rising, double entry, int step) {
  const auto at = std::lower_bound(rising.begin(), rising.end(), entry);
  if ((step < 0 && at == rising.begin()) || (step > 0 && at + 1 == rising.end())) return entry;
  return *(at + step);
}

std::vector<double> misses_between(const std::vector<CoenergyRow>& rows,
                                   const std::vector<double>& displacements) {
  std::vector<double> misses(rows.size(), 0.0);
  std::vector<CoenergyRow> kept;
  std::vector<std::size_t> left_out;
  for (std::size_t n = 0; n < rows.size(); ++n) {
    const auto place = std::lower_bound(displacements.begin(), displacements.end(), rows[n].displacement);
    if ((place - displacements.begin()) % 2 == 0 || place + 1 == displacements.end())
      kept.push_back(rows[n]);
    else
      left_out.push_back(n);
  }
  if (left_out.empty()) return misses;
  const CoenergyFit half = fit_coenergy(kept);
  for (const std::size_t n : left_out) {
    const double seen = half.function.at(rows[n].displacement, rows[n].current_A).force_N;
    if (std::isfinite(rows[n].force_N.value)) misses[n] = std::abs(seen - rows[n].force_N.value) / 4;
  }
  return misses;
}

std::string first_that_varies(const ForceTable& table) {
  for (std::size_t k = 0; k < table.circuits.size(); ++k)
    for (const Measurement& row : table.rows)
      if (row.currents_A[k] != table.rows.front().currents_A[k]) return table.circuits[k];
  return table.circuits.empty() ? "" : table.circuits.front();
}

}  // namespace

double DriveTable::strongest_A() const { return std::max(std::abs(least_A()), std::abs(most_A())); }

Measured DriveTable::force_N(double displacement, double current_A) const {
  const auto [z0, z1] = around(displacements, displacement);
  const auto [i0, i1] = around(currents_A, current_A);
  const double before = beside(displacements, z0, -1), after = beside(displacements, z1, 1);
  double bar = 0, between = 0;
  for (std::size_t n = 0; n < rows.size(); ++n) {
    const CoenergyRow& row = rows[n];
    if (row.current_A < i0 || row.current_A > i1) continue;
    if (row.displacement >= z0 && row.displacement <= z1 && std::isfinite(row.force_N.error))
      bar = std::max(bar, row.force_N.error);
    if (z0 < z1 && row.displacement >= before && row.displacement <= after)
      between = std::max(between, between_N[n]);
  }
  return {fit.function.at(displacement, current_A).force_N, bar * std::max(1.0, fit.force.bars) + between};
}

Measured DriveTable::work_J(double from, double to, double current_A) const {
  constexpr int parts = 64;
  double bar = 0;
  for (int i = 0; i < parts; ++i)
    bar += force_N(from + (to - from) * (i + 0.5) / parts, current_A).error * std::abs(to - from) / parts;
  return {fit.function.at(to, current_A).coenergy_J - fit.function.at(from, current_A).coenergy_J, bar};
}

DriveTable drive_of(const ForceTable& table, const std::string& circuit) {
  CircuitRows rows = rows_of_circuit(read_csv_text(csv_text(table), "the solved table"),
                                     circuit.empty() ? first_that_varies(table) : circuit);
  CoenergyFit fit = fit_coenergy(rows.rows);
  std::vector<double> displacements, currents_A;
  for (const CoenergyRow& row : rows.rows) {
    displacements.push_back(row.displacement);
    currents_A.push_back(row.current_A);
  }
  displacements = sorted_once(displacements);
  std::vector<double> between = misses_between(rows.rows, displacements);
  return {std::move(rows.circuit), std::move(rows.others),  std::move(rows.rows), std::move(fit),
          displacements,           sorted_once(currents_A), std::move(between)};
}

std::vector<double> along(const DriveTable& drive, std::size_t points) {
  std::vector<double> places;
  for (std::size_t i = 0; i < points; ++i)
    places.push_back(i + 1 == points ? drive.to()
                                     : drive.from() + (drive.to() - drive.from()) * static_cast<double>(i) /
                                                          static_cast<double>(points - 1));
  return places;
}

}  // namespace coilpull
