// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include <optional>
#include <vector>

#include "apps/variants/plan.hpp"
#include "apps/variants/solve_variants.hpp"

namespace coilpull {

/// Runs the stroke of a variant from its stored table. Where there is none, its current leaves the
/// table or the mover does not leave, it tells why.
StrokeOutcome stroke_of(const Variant& variant, const VariantResult& result, const StrokeWish& wish);

/// What is stored of a variant, its stroke included, and its pulse. Nothing: not solved.
std::optional<VariantResult> stored_result(VariantStore& store, const Variant& variant);

/// The same, and when the stroke is missing, runs and stores it. @param wish  none: no stroke
std::optional<VariantResult> completed_result(VariantStore& store, const Variant& variant,
                                              const std::optional<StrokeWish>& wish);

/// Runs what strokes the store does not hold yet of tables that it does.
void run_strokes(const std::vector<const Variant*>& variants, const StrokeWish& wish, VariantStore& store,
                 const SolveVariantsOptions& options);

}  // namespace coilpull
