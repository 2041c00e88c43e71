// SPDX-License-Identifier: GPL-3.0-or-later
#include "apps/variants/row_weights.hpp"

#include <algorithm>
#include <cmath>

namespace coilpull {
namespace {

using Weights = std::vector<RowWeight>;

double force_at(const ForceTableFile& table, std::size_t displacement, std::size_t set) {
  return table.at(displacement, set).force_N;
}

bool is_off(const std::vector<double>& currents_A) {
  return std::all_of(currents_A.begin(), currents_A.end(), [](double i) { return i == 0; });
}

/// The row where the score of its force is largest, among those of sets that count.
template <class Counts, class Score>
std::optional<Weights> largest(const ForceTableFile& table, const Counts& counts, const Score& score) {
  std::optional<Weights> found;
  double most = -HUGE_VAL;
  for (std::size_t i = 0; i < table.displacements.size(); ++i)
    for (std::size_t set = 0; set < table.currents_A.size(); ++set) {
      const double force = force_at(table, i, set);
      if (!counts(set) || !std::isfinite(force) || score(force) <= most) continue;
      most = score(force);
      found = Weights{{i, set, score(1) == score(-1) ? (force < 0 ? -1.0 : 1.0) : score(1)}};
    }
  return found;
}

/// The set with the largest force at each displacement; nothing where a displacement has none.
std::optional<std::vector<std::size_t>> best_sets(const ForceTableFile& table) {
  std::vector<std::size_t> best;
  for (std::size_t i = 0; i < table.displacements.size(); ++i) {
    std::optional<std::size_t> strongest;
    for (std::size_t set = 0; set < table.currents_A.size(); ++set) {
      const double force = force_at(table, i, set);
      if (std::isfinite(force) && (!strongest || force > force_at(table, i, *strongest))) strongest = set;
    }
    if (!strongest) return std::nullopt;
    best.push_back(*strongest);
  }
  return best;
}

/// Half of each step beside a displacement. [m]
double share_of(const ForceTableFile& table, std::size_t i) {
  const std::vector<double>& z = table.displacements;
  return 0.5 * ((i > 0 ? z[i] - z[i - 1] : 0) + (i + 1 < z.size() ? z[i + 1] - z[i] : 0));
}

std::optional<Weights> least_of_best(const ForceTableFile& table) {
  const auto sets = best_sets(table);
  if (!sets || sets->empty()) return std::nullopt;
  std::size_t least = 0;
  for (std::size_t i = 1; i < sets->size(); ++i)
    if (force_at(table, i, (*sets)[i]) < force_at(table, least, (*sets)[least])) least = i;
  return Weights{{least, (*sets)[least], 1}};
}

std::optional<Weights> switched_work(const ForceTableFile& table) {
  const auto sets = best_sets(table);
  if (!sets || sets->size() < 2) return std::nullopt;
  Weights weights;
  for (std::size_t i = 0; i < sets->size(); ++i) weights.push_back({i, (*sets)[i], share_of(table, i)});
  return weights;
}

/// One current all along, one way; where the force is against it, nothing is done.
std::optional<Weights> kept_work(const ForceTableFile& table) {
  if (table.displacements.size() < 2) return std::nullopt;
  double most = 0;
  Weights best;
  for (std::size_t set = 0; set < table.currents_A.size(); ++set)
    for (const double sign : {1.0, -1.0}) {
      double work = 0;
      Weights weights;
      for (std::size_t i = 0; i < table.displacements.size(); ++i) {
        const double force = force_at(table, i, set);
        if (!std::isfinite(force)) return std::nullopt;
        if (!(sign * force > 0)) continue;
        weights.push_back({i, set, sign * share_of(table, i)});
        work += weights.back().weight * force;
      }
      if (work > most) most = work, best = weights;
    }
  return best;
}

}  // namespace

std::optional<std::vector<RowWeight>> row_weights(const std::string& figure, const ForceTableFile& table) {
  const auto all = [](std::size_t) { return true; };
  const auto off = [&](std::size_t set) { return is_off(table.currents_A[set]); };
  const auto size = [](double force) { return std::abs(force); };
  const auto push = [](double force) { return force; };
  const auto pull = [](double force) { return -force; };
  if (figure == "force_N") return largest(table, all, size);
  if (figure == "force_off_N") return largest(table, off, size);
  if (figure == "push_N") return largest(table, all, push);
  if (figure == "pull_N") return largest(table, all, pull);
  if (figure == "least_push_N") return least_of_best(table);
  if (figure == "switched_work_J") return switched_work(table);
  if (figure == "work_J") return kept_work(table);
  return std::nullopt;
}

}  // namespace coilpull
