// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include <cstddef>
#include <functional>
#include <optional>
#include <vector>

#include "apps/variants/plan.hpp"
#include "apps/variants/variant_store.hpp"

namespace coilpull {

class Crew;

/// One variant, on the threads of a crew: a result also where it cannot be solved, with its reason. Nothing:
/// stopped.
std::optional<VariantResult> solve_variant(const Variant& variant, Crew& crew,
                                           const std::function<bool()>& stop_requested);

struct SolveVariantsOptions {
  int jobs = 0;  ///< variants at once, each on one thread with a mesher that stays; 0: a job a core
  std::function<void(std::size_t done, std::size_t of)> on_progress = {};  ///< one call at a time
  std::function<void(const Variant&, bool begins)> on_variant = {};  ///< likewise: it begins, it is stored
  std::function<bool()> stop_requested = {};  ///< true: what is under way is given up, and nothing is begun
};

/// Solves what the store does not hold yet and puts it there, each as soon as it is finished. A variant that
/// cannot be solved is a result too, with its reason. What a variant comes to depends on nothing but itself.
/// Returns how many were solved.
/// @throws CannotWrite  nothing more can be stored
std::size_t solve_variants(const std::vector<const Variant*>& variants, VariantStore& store,
                           const SolveVariantsOptions& options = {});

}  // namespace coilpull
