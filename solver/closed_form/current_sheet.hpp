// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include "meshing/point.hpp"
#include "solver/closed_form/source_field.hpp"

namespace coilpull {

// Current spread evenly over a cylinder about the z axis, in free space: a solenoid of one thin layer, or
// what an axially magnetised cylinder of recoil permeability 1 carries on its side. Ampere-turns are positive
// counter-clockwise seen from +z, force and displacement along +z.

/// A winding of no thickness.
struct CurrentSheet {
  double radius;        ///< [m], > 0
  double z_from, z_to;  ///< [m], z_from < z_to
};

/// Anywhere. Derby and Olbert, Am. J. Phys. 78 (2010) 229 (from memory); farther off than three half lengths
/// ten loops at Gauss's points, which there agree to 1e-15 and leave no difference of large terms. Good to
/// 1e-13 of |B| nearby and far away; beside a sheet much longer than wide, to 1e-15 of mu0 NI / length. On
/// the sheet B_z is the mean of both sides; at its ends B_r is infinite and B_z half of that mean's limit.
SourceField flux_density(const CurrentSheet& sheet, double ampere_turns, Point at);

/// A_phi [T m]; 2 pi r A_phi is the flux through the circle at the point. Antiderivative of the loop's, as in
/// mutual_inductance below; near the axis the mean of B_z over the circle. Good to 1e-13.
double vector_potential(const CurrentSheet& sheet, double ampere_turns, Point at);

/// M [H] of one turn each, spread over its sheet; symmetric. The same sheet twice: its self-inductance.
/// Maxwell's M of two loops, integrated twice along z in elliptic integrals (derivation in the .cpp).
/// Good to 1e-13 for any position, also where sheets touch and cross; of flat ones near each other, shorter
/// than their radius, it keeps 1e-15 (radius/length)^2, and of radii a > b 1e-15 a/b.
double mutual_inductance(const CurrentSheet& first, const CurrentSheet& second);

/// dM/dz [H/m] when the first sheet moves along +z: the axial force on it is NI1 NI2 dM/dz.
/// The closed form of Robertson, Cazzolato and Zander, IEEE Trans. Magn. 47 (2011) 2045, written without the
/// differences that cancel; accuracy as above, relative to the largest of its four terms.
double inductance_slope(const CurrentSheet& first, const CurrentSheet& second);

/// B on the axis [T], for a spreadsheet: mu0 NI / (2 l) (cos1 - cos2), with cos = u / sqrt(a^2 + u^2) and u
/// the height above either end. From the law of Biot and Savart; exact.
double axis_flux_density(const CurrentSheet& sheet, double ampere_turns, double z);

}  // namespace coilpull
