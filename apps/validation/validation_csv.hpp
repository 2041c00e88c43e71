// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include <string>
#include <vector>

#include "apps/validation/check.hpp"

namespace coilpull {

/// All checks as RFC 4180: source, what, unit, their value as printed with its uncertainty and certainty,
/// ours with its bar, the difference, the verdict (empty for values from memory) and the reason.
std::string validation_csv(const std::vector<Check>& checks);

/// "source, what: theirs, ours +- bar, difference" for the screen.
std::string line_of(const Check& check);

/// "412 published values from 24 sources: 400 agree, ..." in one sentence.
std::string totals_text(const ValidationCounts& counts);

}  // namespace coilpull
