// SPDX-License-Identifier: GPL-3.0-or-later
#include "solver/sweep/audited_rows.hpp"

#include <algorithm>
#include <cmath>

namespace coilpull {
namespace {

constexpr std::size_t rows_wanted = 5;

bool usable(const Measurement& row) { return std::isfinite(row.force_N.value); }

std::size_t peak_row(const ForceTable& table) {
  std::size_t peak = table.rows.size();
  for (std::size_t i = 0; i < table.rows.size(); ++i)
    if (usable(table.rows[i]) && (peak == table.rows.size() || std::abs(table.rows[i].force_N.value) >
                                                                   std::abs(table.rows[peak].force_N.value)))
      peak = i;
  return peak;
}

/// `rows` usable rows of one displacement, the sets of currents spread evenly from `first` on, round the end.
std::vector<std::size_t> spread(const ForceTable& table, std::size_t displacement, std::size_t first,
                                std::size_t rows) {
  const std::size_t sets = table.currents_per_displacement;
  std::vector<std::size_t> order, chosen;
  for (std::size_t k = 0; k < std::min(rows, sets); ++k)
    order.push_back(first + k * sets / std::min(rows, sets));
  for (std::size_t k = 0; k < sets; ++k) order.push_back(first + k);  // in place of rows that are not usable
  for (const std::size_t set : order) {
    const std::size_t row = displacement * sets + set % sets;
    if (chosen.size() < rows && usable(table.rows[row]) &&
        std::find(chosen.begin(), chosen.end(), row) == chosen.end())
      chosen.push_back(row);
  }
  return chosen;
}

}  // namespace

std::vector<AuditedDisplacement> rows_to_audit(const ForceTable& table) {
  std::vector<AuditedDisplacement> all;
  const std::size_t peak = peak_row(table), sets = table.currents_per_displacement;
  if (peak == table.rows.size()) return all;
  const std::size_t displacements = table.rows.size() / sets;
  const std::size_t places =
      std::min(displacements, std::max<std::size_t>(2, (rows_wanted + sets - 1) / sets));
  std::vector<std::size_t> shifts;  // from the peak on, round the end: evenly spread, then all the others
  for (std::size_t k = 0; k < places; ++k) shifts.push_back(k * displacements / places);
  for (std::size_t k = 1; k < displacements; ++k)
    if (std::find(shifts.begin(), shifts.end(), k) == shifts.end()) shifts.push_back(k);
  std::size_t left = rows_wanted;
  for (std::size_t k = 0; k < displacements && left > 0; ++k) {
    const std::size_t displacement = (peak / sets + shifts[k]) % displacements;
    const std::size_t share = k < places ? (left + places - k - 1) / (places - k) : left;
    const std::size_t first = peak % sets + (k == 0 ? 0 : sets / 6);  // other currents than at the peak
    std::vector<std::size_t> rows = spread(table, displacement, first, share);
    left -= rows.size();
    if (!rows.empty()) all.push_back({displacement, std::move(rows)});
  }
  return all;
}

}  // namespace coilpull
