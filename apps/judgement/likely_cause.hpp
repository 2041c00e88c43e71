// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include <optional>

#include "apps/judgement/judge.hpp"

namespace coilpull {

/// One simple thing that would make the person's forces and the table differ.
struct LikelyCause {
  enum class Kind {
    factor,        ///< mine = amount * table
    displacement,  ///< mine(z) = table(z + amount), [m]
    constant       ///< mine = table + amount, [N]: a scale that was not at zero, a weight
  };
  Kind kind;
  double amount;
  double rms_before_N, rms_after_N;  ///< difference as it is, and with this taken away
};

/// The one that explains most; nothing when none leaves less than half of the rms difference, when fewer than
/// four points are judged, or when most of them lie inside their bars anyway. A hint, not a finding.
std::optional<LikelyCause> likely_cause(const Judgement& judgement, const ForceGrid& grid);

}  // namespace coilpull
