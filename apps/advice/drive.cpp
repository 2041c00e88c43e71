// SPDX-License-Identifier: GPL-3.0-or-later
#include "apps/advice/drive.hpp"

#include <algorithm>
#include <cmath>
#include <limits>
#include <stdexcept>
#include <tuple>

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

/// What a straight line along `coordinate` between the rows beside it misses a row by; none beside it:
/// infinite.
Misses line_misses(const std::vector<CoenergyRow>& rows, const std::vector<double>& places,
                   double CoenergyRow::*coordinate, const CoenergyRow& row) {
  double CoenergyRow::*other =
      coordinate == &CoenergyRow::displacement ? &CoenergyRow::current_A : &CoenergyRow::displacement;
  const double low = beside(places, row.*coordinate, -1), high = beside(places, row.*coordinate, 1);
  const CoenergyRow *before = nullptr, *after = nullptr;
  for (const CoenergyRow& one : rows) {
    if (one.*other != row.*other) continue;
    if (one.*coordinate == low) before = &one;
    if (one.*coordinate == high) after = &one;
  }
  if (!before || !after || !(low < row.*coordinate && row.*coordinate < high)) return {HUGE_VAL, HUGE_VAL};
  const double t = (row.*coordinate - low) / (high - low);
  const auto miss = [&](Measured CoenergyRow::*what) {
    const double line = (1 - t) * (before->*what).value + t * (after->*what).value;
    return std::isfinite(line) ? std::abs(line - (row.*what).value) : HUGE_VAL;
  };
  return {miss(&CoenergyRow::force_N), miss(&CoenergyRow::linkage_Wb)};
}

struct HalfFit {
  std::vector<Misses> misses;
  std::optional<CoenergyFunction> function;  ///< none: too few places to leave any out
};

/// @param places  of the rows along `coordinate`, rising
HalfFit without_every_second(const std::vector<CoenergyRow>& rows, const std::vector<double>& places,
                             double CoenergyRow::*coordinate) {
  HalfFit half{std::vector<Misses>(rows.size()), {}};
  std::vector<CoenergyRow> kept;
  std::vector<std::size_t> left_out;
  for (std::size_t n = 0; n < rows.size(); ++n) {
    const auto place = std::lower_bound(places.begin(), places.end(), rows[n].*coordinate);
    if ((place - places.begin()) % 2 == 0 || place + 1 == places.end())
      kept.push_back(rows[n]);
    else
      left_out.push_back(n);
  }
  if (left_out.empty()) return half;
  try {
    half.function = fit_coenergy(kept).function;
  } catch (const std::invalid_argument&) {  // the rows kept are not usable at two places
    return half;
  }
  for (const std::size_t n : left_out) {
    const CoenergyPoint seen = half.function->at(rows[n].displacement, rows[n].current_A);
    const Misses line = line_misses(rows, places, coordinate, rows[n]);
    if (std::isfinite(rows[n].force_N.value))
      half.misses[n] = {std::min(line.force_N, std::abs(seen.force_N - rows[n].force_N.value) / 4),
                        std::min(line.linkage_Wb, std::abs(seen.linkage_Wb - rows[n].linkage_Wb.value) / 4)};
  }
  return half;
}

/// Places of a table around a point, and those one farther out.
struct Neighbours {
  double low, high, before, after;
  Neighbours(const std::vector<double>& rising, double x) {
    std::tie(low, high) = around(rising, x);
    before = beside(rising, low, -1);
    after = beside(rising, high, 1);
  }
  bool between() const { return low < high; }
  bool next_to(double x) const { return x >= low && x <= high; }
  bool near_to(double x) const { return x >= before && x <= after; }
};

/// Bar of one of a function's slopes between the rows.
double bar_at(const DriveTable& drive, double displacement, double current_A, Measured CoenergyRow::*what,
              double Misses::*miss, double worst_bars) {
  const Neighbours z(drive.displacements, displacement), i(drive.currents_A, current_A);
  double bar = 0, between = 0;
  for (std::size_t n = 0; n < drive.rows.size(); ++n) {
    const CoenergyRow& row = drive.rows[n];
    const bool z_next = z.next_to(row.displacement), i_next = i.next_to(row.current_A);
    if (z_next && i_next && std::isfinite((row.*what).error)) bar = std::max(bar, (row.*what).error);
    if (z.between() && i_next && z.near_to(row.displacement))
      between = std::max(between, drive.between_displacements[n].*miss);
    if (i.between() && z_next && i.near_to(row.current_A))
      between = std::max(between, drive.between_currents[n].*miss);
  }
  return bar * std::max(1.0, worst_bars) + between;
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
  return {fit.function.at(displacement, current_A).force_N,
          bar_at(*this, displacement, current_A, &CoenergyRow::force_N, &Misses::force_N, fit.force.bars)};
}

Measured DriveTable::linkage_Wb(double displacement, double current_A) const {
  return {fit.function.at(displacement, current_A).linkage_Wb,
          bar_at(*this, displacement, current_A, &CoenergyRow::linkage_Wb, &Misses::linkage_Wb,
                 fit.linkage.bars)};
}

Measured DriveTable::inductance_H(double displacement, double current_A) const {
  const double henry = fit.function.at(displacement, current_A).inductance_H;
  if (!fewer_currents) return {henry, std::numeric_limits<double>::infinity()};
  Neighbours i(currents_A, current_A);
  if (!i.between()) i.low = i.before, i.high = i.after;
  const double rows_leave =
      (linkage_Wb(displacement, i.low).error + linkage_Wb(displacement, i.high).error) / (i.high - i.low);
  return {henry, rows_leave + std::abs(fewer_currents->at(displacement, current_A).inductance_H - henry) / 4};
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
  currents_A = sorted_once(currents_A);
  HalfFit places = without_every_second(rows.rows, displacements, &CoenergyRow::displacement),
          steps = without_every_second(rows.rows, currents_A, &CoenergyRow::current_A);
  return {std::move(rows.circuit),  std::move(rows.others),  std::move(rows.rows),
          std::move(fit),           displacements,           currents_A,
          std::move(places.misses), std::move(steps.misses), std::move(steps.function)};
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
