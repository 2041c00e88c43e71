// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include <array>

#include "solver/measure/measurement.hpp"

namespace coilpull {

/// An energy at x - 2h, x - h, x + h, x + 2h, at two successive orders, and its slope there as found by
/// other means (a force, a linkage), which tells how strongly it bends.
struct FivePoints {
  double step;                            ///< h
  std::array<double, 4> low, high;        ///< energy at orders p and p + 1
  std::array<double, 4> slope_elsewhere;  ///< at the same places
};

enum class Meshes { one, four };

/// The slope at x of order p + 1 by the fourth-order difference [e(-2h) - 8 e(-h) + 8 e(h) - e(2h)] / (12 h)
/// (Abramowitz and Stegun, table 25.2), and what it may miss: in quadrature
/// - the step: h^4 |e'''''| / 30, the fourth difference of the slopes over 30;
/// - the orders: the change of the result from p to p + 1;
/// - on four meshes, their scatter: the standard deviation of (high - low), carried through the formula. The
///   change from p to p + 1 is larger than the error left at p + 1, and as irregular from mesh to mesh.
Measured slope_of(const FivePoints& points, Meshes meshes);

}  // namespace coilpull
