// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include "solver/motion/coenergy_function.hpp"

namespace coilpull {

/// What one stage of a row does to a mover anywhere along the row: the table's function within its range;
/// beyond it W'(edge + s tanh(d / s), i), d the distance from the edge and s a 40th of the range. The force
/// then keeps its value and slope at the edge and fades within a few s, as that of a mover gone from the
/// stage does; W' stays one C2 function, so energy is kept. How far the mover is from truth there is the
/// force at the edge of the table, which ought to be small.
CoenergyPoint stage_field(const CoenergyFunction& function, double displacement, double current_A);

/// So far beyond the range that the force is below 1e-16 of that at the edge.
bool out_of_reach(const CoenergyFunction& function, double displacement);

}  // namespace coilpull
