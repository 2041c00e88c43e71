// SPDX-License-Identifier: GPL-3.0-or-later
#include "apps/output/findings.hpp"

#include <algorithm>
#include <cmath>

namespace coilpull {
namespace {

bool usable(const Measurement& row) { return std::isfinite(row.force_N.value); }

bool all_off(const Measurement& row) {
  return std::all_of(row.currents_A.begin(), row.currents_A.end(),
                     [](double current) { return current == 0; });
}

/// The usable row that passes and has the largest score > 0.
template <class Passes, class Score>
const Measurement* best_row(const ForceTable& table, Passes passes, Score score) {
  const Measurement* best = nullptr;
  for (const Measurement& row : table.rows)
    if (usable(row) && passes(row) && score(row) > (best ? score(*best) : 0.0)) best = &row;
  return best;
}

bool any(const Measurement&) { return true; }

bool only_circuit(const Measurement& row, std::size_t circuit) {
  for (std::size_t i = 0; i < row.currents_A.size(); ++i)
    if (i != circuit && row.currents_A[i] != 0) return false;
  return circuit < row.currents_A.size();
}

/// The three rows to compare among those of one displacement.
CurrentEffect effect_at(const ForceTable& table, std::size_t displacement, std::size_t circuit) {
  CurrentEffect effect{circuit, nullptr, nullptr, nullptr};
  const std::size_t first = displacement * table.currents_per_displacement;
  const std::size_t end = std::min(first + table.currents_per_displacement, table.rows.size());
  for (std::size_t i = first; i < end; ++i) {
    const Measurement& row = table.rows[i];
    if (!usable(row) || !only_circuit(row, circuit)) continue;
    const double current = row.currents_A[circuit];
    if (current == 0) effect.off = &row;
    if (current > (effect.positive ? effect.positive->currents_A[circuit] : 0)) effect.positive = &row;
    if (current < (effect.negative ? effect.negative->currents_A[circuit] : 0)) effect.negative = &row;
  }
  return effect;
}

/// How much the current changes the force [N]; 0 when there is nothing to compare.
double size_of(const CurrentEffect& effect) {
  const auto change = [](const Measurement* a, const Measurement* b) {
    return a && b ? std::abs(a->force_N.value - b->force_N.value) : 0.0;
  };
  return std::max({change(effect.positive, effect.off), change(effect.negative, effect.off),
                   change(effect.positive, effect.negative)});
}

}  // namespace

const Measurement* strongest_push(const ForceTable& table) {
  return best_row(table, any, [](const Measurement& row) { return row.force_N.value; });
}

const Measurement* strongest_pull(const ForceTable& table) {
  return best_row(table, any, [](const Measurement& row) { return -row.force_N.value; });
}

const Measurement* strongest_current_off(const ForceTable& table) {
  return best_row(table, all_off, [](const Measurement& row) { return std::abs(row.force_N.value); });
}

std::optional<CurrentEffect> largest_effect(const ForceTable& table, std::size_t circuit) {
  std::optional<CurrentEffect> largest;
  for (std::size_t i = 0; i < displacement_count(table); ++i) {
    const CurrentEffect effect = effect_at(table, i, circuit);
    const int rows = (effect.off != nullptr) + (effect.positive != nullptr) + (effect.negative != nullptr);
    if (rows >= 2 && (!largest || size_of(effect) > size_of(*largest))) largest = effect;
  }
  return largest;
}

std::vector<const AuditedRow*> audit_misses(const ForceTable& table) {
  std::vector<const AuditedRow*> misses;
  for (const AuditedRow& row : table.audit.rows)
    if (worst_bars(row) > 1) misses.push_back(&row);
  return misses;
}

std::size_t unsure_audits(const ForceTable& table) {
  return static_cast<std::size_t>(
      std::count_if(table.audit.rows.begin(), table.audit.rows.end(), [&](const AuditedRow& row) {
        const Measurement& of_table = table.rows[row.row];
        bool unsure = row.force_N.error > of_table.force_N.error;
        for (std::size_t k = 0; k < row.linkage_Wb.size(); ++k)
          unsure |= row.linkage_Wb[k].error > of_table.linkage_Wb[k].error;
        return unsure;
      }));
}

const AuditedRow* worst_audited(const ForceTable& table) {
  const AuditedRow* worst = nullptr;
  for (const AuditedRow& row : table.audit.rows)
    if (!std::isnan(worst_bars(row)) && !(worst && worst_bars(*worst) >= worst_bars(row))) worst = &row;
  return worst;
}

std::size_t displacement_count(const ForceTable& table) {
  if (table.currents_per_displacement == 0) return 0;
  return table.rows.size() / table.currents_per_displacement;
}

}  // namespace coilpull
