// SPDX-License-Identifier: GPL-3.0-or-later
#include "apps/comparison/row_weights.hpp"

#include <algorithm>
#include <cmath>

namespace coilpull {
namespace {

using Weights = std::vector<RowWeight>;

double force_of(const ForceTable& table, std::size_t row) { return table.rows[row].force_N.value; }

bool usable(const ForceTable& table, std::size_t row) { return std::isfinite(force_of(table, row)); }

bool is_off(const Measurement& row) {
  return std::all_of(row.currents_A.begin(), row.currents_A.end(), [](double i) { return i == 0; });
}

RowWeight one(std::size_t row, double sign) { return {row, sign, 1}; }

enum class Way { plus, minus, either };

/// The row with the largest force that way.
std::optional<Weights> largest(const ForceTable& table, Way way, bool off_only) {
  std::optional<Weights> found;
  double most = -HUGE_VAL;
  for (std::size_t k = 0; k < table.rows.size(); ++k) {
    if (!usable(table, k) || (off_only && !is_off(table.rows[k]))) continue;
    const double force = force_of(table, k);
    const double sign = way == Way::minus || (way == Way::either && force < 0) ? -1 : 1;
    if (sign * force <= most) continue;
    most = sign * force;
    found = Weights{one(k, sign)};
  }
  return found;
}

void sort_along_stroke(const ForceTable& table, std::vector<std::size_t>& rows) {
  std::stable_sort(rows.begin(), rows.end(), [&](std::size_t a, std::size_t b) {
    return table.rows[a].displacement < table.rows[b].displacement;
  });
}

/// At each displacement the row with the largest force, from low to high; nothing where one has none.
std::optional<std::vector<std::size_t>> best_rows(const ForceTable& table) {
  const std::size_t sets = table.currents_per_displacement;
  std::vector<std::size_t> best;
  for (std::size_t first = 0; sets > 0 && first + sets <= table.rows.size(); first += sets) {
    std::optional<std::size_t> strongest;
    for (std::size_t k = first; k < first + sets; ++k)
      if (usable(table, k) && (!strongest || force_of(table, k) > force_of(table, *strongest))) strongest = k;
    if (!strongest) return std::nullopt;
    best.push_back(*strongest);
  }
  sort_along_stroke(table, best);
  return best;
}

std::optional<Weights> least_of_best(const ForceTable& table) {
  const auto best = best_rows(table);
  if (!best || best->empty()) return std::nullopt;
  const auto least = std::min_element(best->begin(), best->end(), [&](std::size_t a, std::size_t b) {
    return force_of(table, a) < force_of(table, b);
  });
  return Weights{one(*least, 1)};
}

/// int max(sign F, 0) dz by trapezoids over rows along the stroke. The bars count wherever an interval does.
Weights trapezoids(const ForceTable& table, const std::vector<std::size_t>& rows, double sign,
                   bool helping_only) {
  Weights weights;
  for (const std::size_t row : rows) weights.push_back({row, 0, 0});
  const auto counts = [&](std::size_t k) { return !helping_only || sign * force_of(table, rows[k]) > 0; };
  for (std::size_t k = 1; k < rows.size(); ++k) {
    const double half = 0.5 * (table.rows[rows[k]].displacement - table.rows[rows[k - 1]].displacement);
    for (const std::size_t end : {k - 1, k}) {
      if (counts(end)) weights[end].weight += sign * half;
      if (counts(k - 1) || counts(k)) weights[end].bar_weight += half;
    }
  }
  return weights;
}

std::optional<Weights> switched_work(const ForceTable& table) {
  const auto best = best_rows(table);
  if (!best || best->size() < 2) return std::nullopt;
  return trapezoids(table, *best, 1, false);
}

/// One set of currents all along, one way; where the force is against it, nothing is done.
std::optional<Weights> kept_work(const ForceTable& table) {
  const std::size_t sets = table.currents_per_displacement;
  if (sets == 0 || table.rows.size() / sets < 2) return std::nullopt;
  Weights best;
  for (std::size_t set = 0; set < sets; ++set) {
    std::vector<std::size_t> rows;
    for (std::size_t k = set; k < table.rows.size(); k += sets)
      if (usable(table, k)) rows.push_back(k);
    sort_along_stroke(table, rows);
    for (const double sign : {1.0, -1.0}) {
      Weights weights = trapezoids(table, rows, sign, true);
      if (weighted(weights, table).value > weighted(best, table).value) best = std::move(weights);
    }
  }
  return best;
}

}  // namespace

const std::vector<std::string>& force_figures() {
  static const std::vector<std::string> names = {"force_N",      "force_off_N", "push_N",         "pull_N",
                                                 "least_push_N", "work_J",      "switched_work_J"};
  return names;
}

std::optional<std::vector<RowWeight>> row_weights(const std::string& figure, const ForceTable& table) {
  if (figure == "force_N") return largest(table, Way::either, false);
  if (figure == "force_off_N") return largest(table, Way::either, true);
  if (figure == "push_N") return largest(table, Way::plus, false);
  if (figure == "pull_N") return largest(table, Way::minus, false);
  if (figure == "least_push_N") return least_of_best(table);
  if (figure == "work_J") return kept_work(table);
  if (figure == "switched_work_J") return switched_work(table);
  return std::nullopt;
}

Measured weighted(const std::vector<RowWeight>& weights, const ForceTable& table) {
  Measured sum{0, 0};
  for (const RowWeight& each : weights) {
    const Measured force = table.rows[each.row].force_N;
    sum.value += each.weight * force.value;
    sum.error += each.bar_weight * force.error;
  }
  return sum;
}

}  // namespace coilpull
