// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include <vector>

namespace coilpull {

/// Places labels along a line so that none overlaps: in the order of their wishes, each as near to its own as
/// the sum of squared shifts allows, all between `from` and `to` when they fit there.
/// @param wishes  where the middle of each label should be
/// @param sizes   room that each takes along the line, same length
std::vector<double> spread(const std::vector<double>& wishes, const std::vector<double>& sizes, double from,
                           double to);

}  // namespace coilpull
