// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include "solver/closed_form/thin_loop.hpp"

namespace coilpull {

/// M [H] of two parallel loops of one turn each whose axes stand `offset` apart [m], in free space: the flux
/// that the first loop's vector potential sends round the second,
///   M = closed integral A.dl = integral A_phi(rho, z) b (b + offset cos t) / rho dt,  rho^2 = offset^2 + b^2
///   + 2 offset b cos t
/// (Maxwell, A Treatise on Electricity and Magnetism, 3rd ed., art. 409 for M as that integral; A_phi of
/// thin_loop.hpp). Integrated by Boost's trapezoidal rule, which converges exponentially for a period; good
/// to 1e-12 unless the wires come close. With offset 0 it is mutual_inductance(first, second). Forces on the
/// second loop are I1 I2 times the slopes of M along z and along the offset.
double displaced_mutual_inductance(const Loop& first, const Loop& second, double offset);

}  // namespace coilpull
