// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include <cstddef>
#include <optional>
#include <string>
#include <vector>

#include "apps/variants/plan.hpp"
#include "apps/variants/variant_store.hpp"

namespace coilpull {

/// One result per variant of the plan; nothing: not solved.
using VariantResults = std::vector<std::optional<VariantResult>>;

/// What moves a goal, by straight lines through all designs at once (least squares).
struct MainEffect {
  std::string path;
  std::string level;  ///< of what is no number: this value against the mean of all; empty: a number
  double over_range;  ///< change of the goal from the path's least to its greatest value, or of the level
  double per_unit;    ///< slope in the unit of the key; NaN for a level
};

struct MainEffects {
  /// By |over_range|, the largest first; empty: too few different designs to tell them apart.
  std::vector<MainEffect> effects;
  double explained;  ///< share of the goal's variance that the lines tell; 1: all
};

/// What is left of a figure by the draws of [tolerances].
struct Quantiles {
  double p05, p50, p95;
};

struct ForceBandRow {
  double displacement;  ///< [m]
  double drawn_N;       ///< of the design itself
  Quantiles force_N;
};

/// Answers to the goals of a file, of designs only: variants that are no draws. Numbers are indices of the
/// plan.
struct Answers {
  std::vector<std::size_t> within;               ///< solved, every goal known, inside the limits
  std::vector<std::vector<std::size_t>> ranked;  ///< by goal: of those, the best first
  std::vector<std::size_t> pareto;   ///< of those: no other is better in one goal and as good in the others
  std::vector<MainEffects> effects;  ///< by goal, of all solved designs, whatever the limits
};

Answers answers_of(const VariantsFile& file, const VariantPlan& plan, const VariantResults& results);

/// Whether the bars of the two leave a difference.
bool differ(const Measured& a, const Measured& b);

/// By order statistics, straight between them: definition 7 of R. J. Hyndman, Y. Fan, Am. Stat. 50 (1996) 361
/// (number of the definition from memory). The values are not empty.
double quantile(std::vector<double> values, double part);

/// Of one figure over the draws of the design that this variant belongs to. Nothing with fewer than 5 of
/// them.
std::optional<Quantiles> quantiles_of(const std::string& figure, const Variant& design,
                                      const VariantPlan& plan, const VariantResults& results);

/// The force along the stroke over the draws of a design, at one set of currents. Empty with fewer than 5
/// draws.
/// @param set  number of the set in the design's table
std::vector<ForceBandRow> force_band(const Variant& design, std::size_t set, const VariantPlan& plan,
                                     const VariantResults& results);

}  // namespace coilpull
