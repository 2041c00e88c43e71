// SPDX-License-Identifier: GPL-3.0-or-later
#include "apps/comparison/compare.hpp"

#include <algorithm>
#include <cmath>
#include <limits>
#include <numeric>

#include "apps/comparison/row_weights.hpp"
#include "apps/output/findings.hpp"
#include "materials/constants.hpp"
#include "materials/law_from_numbers.hpp"

namespace coilpull {
namespace {

void widen(std::optional<Between>& range, double value, double error) {
  if (!range) range = Between{value - error, value + error};
  range->low = std::min(range->low, value - error);
  range->high = std::max(range->high, value + error);
}

void widen_by_size(std::optional<Between>& range, const Measurement* row) {
  if (row) widen(range, std::abs(row->force_N.value), row->force_N.error);
}

const Measurement* strongest(const ForceTable& table) {
  const Measurement *push = strongest_push(table), *pull = strongest_pull(table);
  if (!push || !pull) return push ? push : pull;
  return push->force_N.value > -pull->force_N.value ? push : pull;
}

/// B at which a law has full_share of its saturation polarization; nothing for a straight law.
std::optional<double> full_flux_density(const SoftLaw& law) {
  const std::optional<double> js = saturation_polarization(law);
  if (!js) return std::nullopt;
  double low = 0, high = 100;
  for (int i = 0; i < 100; ++i) {
    const double b = 0.5 * (low + high);
    (b - mu0 * evaluate(law, b).h > full_share * *js ? high : low) = b;
  }
  return high;
}

/// The only circuit that carries current in a row; -1: none does, -2: several do.
int only_circuit(const Measurement& row) {
  int only = -1;
  for (std::size_t k = 0; k < row.currents_A.size(); ++k)
    if (row.currents_A[k] != 0) only = only == -1 ? static_cast<int>(k) : -2;
  return only;
}

/// Where the core's flux density passes `full` between currents of one sign at one displacement.
void find_passing(const ForceTable& table, std::size_t displacement, std::size_t core, int circuit,
                  double sign, double full, std::optional<double>& weakest) {
  std::vector<std::pair<double, double>> points;  // |current|, B
  for (std::size_t i = 0; i < table.currents_per_displacement; ++i) {
    const Measurement& row = table.rows[displacement * table.currents_per_displacement + i];
    const int only = only_circuit(row);
    if ((only != circuit && only != -1) || core >= row.b_p99_T.size()) continue;
    const double current = only == -1 ? 0 : sign * row.currents_A[static_cast<std::size_t>(circuit)];
    if (current >= 0 && std::isfinite(row.b_p99_T[core])) points.push_back({current, row.b_p99_T[core]});
  }
  std::sort(points.begin(), points.end());
  for (std::size_t i = 0; i < points.size(); ++i) {
    if (points[i].second < full) continue;
    double current = points[i].first;
    if (i > 0 && points[i - 1].second < full)
      current = points[i - 1].first + (current - points[i - 1].first) * (full - points[i - 1].second) /
                                          (points[i].second - points[i - 1].second);
    if (!weakest || current < *weakest) weakest = current;
    return;
  }
}

}  // namespace

std::optional<Measured> stroke_work(const ForceTable& table) {
  const auto weights = row_weights("work_J", table);
  return weights ? std::optional<Measured>(weighted(*weights, table)) : std::nullopt;
}

std::optional<double> full_current(const Device& device, const ForceTable& table) {
  std::optional<double> weakest;
  for (std::size_t core = 0; core < device.cores.size(); ++core) {
    const std::optional<double> full = full_flux_density(device.cores[core].law);
    if (!full) continue;
    for (std::size_t i = 0; i < displacement_count(table); ++i)
      for (int circuit = 0; circuit < static_cast<int>(device.circuits.size()); ++circuit)
        for (const double sign : {1.0, -1.0}) find_passing(table, i, core, circuit, sign, *full, weakest);
  }
  return weakest;
}

Merits merits_of(const SolvedCandidate& candidate) {
  Merits merits;
  bool never_full = false;  // with one of the laws of a pair
  for (std::size_t i = 0; i < candidate.tables.size(); ++i) {
    const ForceTable& table = candidate.tables[i];
    widen_by_size(merits.peak_N, strongest(table));
    widen_by_size(merits.off_N, strongest_current_off(table));
    if (const auto work = stroke_work(table)) widen(merits.stroke_work_J, work->value, work->error);
    if (const auto full = full_current(candidate.devices[i], table))
      widen(merits.full_A, *full, 0);
    else
      never_full = true;
    for (const Measurement& row : table.rows)
      for (const MagnetState& magnet : row.magnets) merits.changed_for_good |= magnet.changed_for_good();
  }
  if (merits.full_A && never_full) merits.full_A->high = std::numeric_limits<double>::infinity();
  return merits;
}

bool differ(const Between& a, const Between& b) { return a.high < b.low || b.high < a.low; }

std::vector<std::size_t> ranked(const std::vector<std::optional<Between>>& values) {
  std::vector<std::size_t> order;
  for (std::size_t i = 0; i < values.size(); ++i)
    if (values[i]) order.push_back(i);
  std::stable_sort(order.begin(), order.end(),
                   [&](std::size_t a, std::size_t b) { return values[a]->middle() > values[b]->middle(); });
  return order;
}

}  // namespace coilpull
