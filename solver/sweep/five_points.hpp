// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include <array>

#include "solver/measure/measurement.hpp"

namespace coilpull {

/// An energy at x - 2h, x - h, x + h, x + 2h, and its slope there as found by other means (a force, a
/// linkage), which tells how strongly it bends.
struct FivePoints {
  double step;  ///< h
  std::array<double, 4> energy, slope_elsewhere;
};

/// The slope at x by the fourth-order difference [e(-2h) - 8 e(-h) + 8 e(h) - e(2h)] / (12 h) (Abramowitz and
/// Stegun, table 25.2). Its error: in quadrature what the length of the step costs, h^4 |e'''''| / 30, as the
/// fourth difference of the slopes over 30, and `of_orders`.
Measured slope_of(const FivePoints& points, double of_orders);

/// What polynomial orders leave open in a slope over four meshes, from the change of the four energies from
/// order p to p + 1: the change of the slope, and in quadrature the scatter, the standard deviation of the
/// four changes carried through the formula. The change to p + 1 is larger than the error left there, and as
/// irregular from mesh to mesh.
double order_error(const std::array<double, 4>& change, double step);

}  // namespace coilpull
