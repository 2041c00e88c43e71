// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include "meshing/point.hpp"
#include "solver/closed_form/source_field.hpp"

namespace coilpull {

// Thin circular loops about the z axis, in free space. Current is positive counter-clockwise seen from +z,
// force and displacement are positive along +z. Exact for a line current; a round wire of radius c may be
// called thin for its field at distances well above c, and for forces on it when all else is far against c.
//
// With r1, r2 the largest and the smallest distance from the point to the loop, s = r1 + r2, and the modulus
// k1 = (r1 - r2)/(r1 + r2) of Landen's transformation:
//     A = 8 mu0 I a^2 r D(k1) / (pi s^3),     D = (K - E)/k1^2
// from Maxwell, A Treatise on Electricity and Magnetism, 3rd ed., art. 702; B = curl A of it. No term cancels
// another, near the axis, near the wire or far away: all are good to 1e-14 of |A| and |B|.

/// A thin circular current around the axis.
struct Loop {
  double radius;  ///< [m], > 0
  double z;       ///< [m]
};

/// A_phi [T m]; +inf on the wire.
double vector_potential(const Loop& loop, double ampere_turns, Point at);

/// NaN on the wire, where B has no limit.
SourceField flux_density(const Loop& loop, double ampere_turns, Point at);

/// M [H] of one turn each, Maxwell, art. 701 and 702; symmetric; +inf for a loop with itself.
double mutual_inductance(const Loop& first, const Loop& second);

/// dM/dz [H/m] when the first loop moves along +z: the axial force on it is I1 I2 dM/dz. Maxwell, art. 701.
/// Negative above the second loop: like currents attract. NaN for a loop with itself.
double inductance_slope(const Loop& first, const Loop& second);

}  // namespace coilpull
