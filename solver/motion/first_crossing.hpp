// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include <cstddef>
#include <functional>
#include <optional>
#include <vector>

#include "solver/motion/stroke.hpp"

namespace coilpull::detail {

/// What ends a run: a quantity that crosses 0.
struct Ending {
  StrokeEnd end;
  std::function<double(const StrokePoint&)> root;
};

struct Crossing {
  double time_s;
  std::size_t ending;  ///< number of it
};

/// The first time in a step at which one of the endings crosses 0. What is 0 at the beginning does not count,
/// but for a stop that is left at once on its wrong side. The step is looked at in 8 parts, and close to its
/// ends; where a quantity comes nearest to 0 between two of these times its extremum is sought (Boost.Math,
/// Brent), so that two crossings within one part are seen as well. Times by TOMS 748 (Boost.Math).
/// @param point_at   the state within the step
/// @param tolerance  of the time [s]
/// @throws what point_at throws, at times up to the crossing and one part beyond
std::optional<Crossing> first_crossing(const std::vector<Ending>& endings, double from, double to,
                                       double tolerance, const std::function<StrokePoint(double)>& point_at);

}  // namespace coilpull::detail
