// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include <cstddef>
#include <functional>
#include <string>
#include <vector>

#include "apps/variants/answers.hpp"

namespace coilpull {

/// A design made better from one of the plan, dimension by dimension.
struct Improvement {
  std::size_t start;     ///< index in the plan
  Variant best;          ///< `number` and `design` are the start's; the start itself where nothing was better
  VariantResult result;  ///< of the best
  std::size_t tables;    ///< asked for on the way, stored ones included
  std::string ended;     ///< why it went no further, in words
};

struct ImproveOptions {
  std::function<bool()> stop_requested = {};  ///< true: what is under way is given up
  std::function<void(std::size_t start, const VariantResult&)> on_table = {};  ///< after each table
};

/// From the best designs of the first goal on, changes every number that the file gives a range
/// ({ from, to } in [vary] or [hypercube], turns apart) within that range; followers follow. The first goal
/// is made better; the others may not fall below those of the start, and the limits hold. By sequential
/// quadratic programming as NLopt has it (SLSQP, after D. Kraft). Its slopes: of
/// forces and works by the adjoint, where a range moves dimensions of tubes and cylinders or strengths of
/// magnets; of sizes, masses and heat, pulses included, from the drawing; of anything else from one more
/// table a number, of a stroke's figures too (what only changes the use of the device needs no other table).
/// It ends when a step gains less than the bar of the goal: below it the bars leave no difference. Every
/// table is kept in the store, so that a second run finds them there.
/// @param file    with [improve]
/// @param ranked  indices of the plan, the best first, inside the limits
/// @throws CannotWrite  nothing more can be stored
std::vector<Improvement> improve(const VariantsFile& file, const VariantPlan& plan,
                                 const VariantResults& results, const std::vector<std::size_t>& ranked,
                                 VariantStore& store, const ImproveOptions& options = {});

}  // namespace coilpull
