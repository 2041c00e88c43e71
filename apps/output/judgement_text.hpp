// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include <string>

#include "apps/judgement/judge.hpp"
#include "apps/judgement/likely_cause.hpp"

namespace coilpull {

/// How far the person's forces are from the table's, where they leave the bar, what would explain it, and
/// what was not judged.
std::string judgement_text(const Judgement& judgement, const ForceTableFile& table, const MeasuredFile& mine,
                           const std::optional<LikelyCause>& cause);

/// judgement.csv: a row a point, in the order of the person's file; "NaN" where the table does not say.
std::string judgement_csv(const Judgement& judgement, const std::vector<std::string>& circuits);

}  // namespace coilpull
