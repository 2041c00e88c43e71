// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include "meshing/outline.hpp"
#include "solver/closed_form/current_sheet.hpp"

namespace coilpull {

// Windings of rectangular section about the z axis, in free space, their ampere-turns spread evenly over the
// section: sheets of one radius after the other, summed by Gauss's rule over intervals that shrink towards
// where the sheets' formulas are singular. Signs as for sheets. A section has 0 <= r_from < r_to, z_from <
// z_to. Fair for many turns of a wire thin against the section; each wire's own field is not in them.

/// B on the axis [T], closed: mu0 J/2 [u ln((Ro + sqrt(Ro^2 + u^2))/(Ri + sqrt(Ri^2 + u^2)))] between
/// u = z - z_from and z - z_to, J = NI / section. Montgomery, Solenoid Magnet Design, 1969 (from memory);
/// also the sum of the sheets' closed form over their radii. Exact; for Ri = 0 not on the ends.
double axis_flux_density(const Box& section, double ampere_turns, double z);

/// Anywhere, inside the winding too; good to 1e-12 of the largest |B|. 10 to 200 sheets, most on the coil's
/// ends.
SourceField flux_density(const Box& section, double ampere_turns, Point at);

/// M [H] of one turn each; symmetric. Good to 1e-11; sections may touch, but not share an area.
double mutual_inductance(const Box& first, const Box& second);
double mutual_inductance(const Box& section, const CurrentSheet& sheet);

/// dM/dz [H/m] when the first moves along +z: the axial force on it is NI1 NI2 dM/dz. Good to 1e-11 of the
/// largest along a stroke.
double inductance_slope(const Box& first, const Box& second);
double inductance_slope(const Box& section, const CurrentSheet& sheet);

/// L [H] of one turn spread over the section; times N^2 for N turns. Good to 1e-11. At low frequency, without
/// the small corrections for round insulated wire (Grover, Inductance Calculations, 1946, from memory).
double self_inductance(const Box& section);

}  // namespace coilpull
