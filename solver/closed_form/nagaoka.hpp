// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

namespace coilpull {

/// Nagaoka's coefficient K of a solenoid of one thin layer: L = mu0 N^2 pi a^2 / l K, by diameter over
/// length. Lorenz's current sheet as Nagaoka (J. Coll. Sci. Tokyo 27 (1909) art. 6) writes it:
///     K = 4 / (3 pi k') [(k'^2/k^2) (K(k) - E(k)) + E(k) - k],   k^2 = x^2/(1 + x^2), x = D/l, k'^2 = 1 -
///     k^2
/// Good to 1e-14 for every x >= 0. Exact for a current sheet; a winding of round wire differs by Rosa's
/// corrections, some 1 % for few turns (Rosa and Grover, NBS Sci. Paper 169, 1916).
double nagaoka_coefficient(double diameter_over_length);

/// L [H] of N turns in one thin layer, by Nagaoka's coefficient.
double solenoid_inductance(double radius_m, double length_m, double turns);

}  // namespace coilpull
