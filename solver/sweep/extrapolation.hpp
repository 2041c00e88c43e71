// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include <cstddef>
#include <vector>

namespace coilpull {

/// What solution number `from` counts in a start for another.
struct Share {
  std::size_t from;
  double weight;
};

/// How to start at a set of currents from sets that are solved: Lagrange's polynomial through up to four of
/// those that lie on a straight line with it through the nearest one, as long as it does not magnify what it
/// is given (by more than even steps do); so the start is off by the fourth power of the step, where steps
/// are even. Weights sum to 1. Empty: nothing is solved.
/// @param currents  [set][circuit], A
/// @param solved    one per set
std::vector<Share> extrapolation_to(std::size_t wanted, const std::vector<std::vector<double>>& currents,
                                    const std::vector<char>& solved);

}  // namespace coilpull
