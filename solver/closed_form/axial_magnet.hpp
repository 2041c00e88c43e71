// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include <vector>

#include "meshing/outline.hpp"
#include "solver/closed_form/current_sheet.hpp"

namespace coilpull {

// Cylinders and tubes magnetised along their axis, in free space, as current sheets: Br/mu0 amperes per metre
// around the outside, the opposite in the bore. Exact for recoil permeability 1; signs as for sheets,
// remanence positive along +z.

/// A cylinder or tube on the axis, evenly magnetised along it.
struct AxialMagnet {
  Box section;                     ///< [m], r_from = 0: a solid cylinder
  double remanence_T;              ///< along +z, < 0: along -z
  double recoil_permeability = 1;  ///< relative, >= 1; what is done with it: see recoil_factor
};

/// A sheet and what flows in it.
struct LoadedSheet {
  CurrentSheet sheet;
  double ampere_turns;
};

/// One sheet, or two for a tube, weakened by recoil_factor.
std::vector<LoadedSheet> sheets_of(const AxialMagnet& magnet);

/// By how much its own field weakens a magnet that stands alone, as a factor of its moment: 1/(1 + chi N),
/// with chi = recoil permeability - 1 and N the demagnetising factor averaged over the volume for chi = 0. N
/// is exact: the mean B of the uniformly magnetised body is what its sheets link of themselves; for a
/// cylinder N = 1 - Nagaoka's coefficient. An approximation only in that it keeps the magnetisation uniform:
/// the moment of a cylinder of recoil permeability 1.05, length 0.2 to 5 diameters, is met within 7e-5. Other
/// magnets, coils and iron nearby shift the magnetisation further: that is not in it.
double recoil_factor(const AxialMagnet& magnet);

double dipole_moment(const AxialMagnet& magnet);  ///< [A m^2] along +z, recoil_factor included

/// B anywhere, magnetisation included where the point is inside the magnet; accuracy as for the sheets.
SourceField flux_density(const AxialMagnet& magnet, Point at);

/// B on the axis [T] of a solid cylinder, for a spreadsheet: Br/2 (u1/sqrt(a^2 + u1^2) - u2/sqrt(a^2 +
/// u2^2)), u the heights above the lower and the upper face; a tube: less the same for its bore. Exact.
double axis_flux_density(const AxialMagnet& magnet, double z);

/// Axial force [N] on the first, positive along +z, by the second.
/// Robertson, Cazzolato and Zander, IEEE Trans. Magn. 47 (2011) 2045: the magnet as a thin solenoid.
double force_on(const AxialMagnet& magnet, const AxialMagnet& other);
double force_on(const AxialMagnet& magnet, const Box& coil, double ampere_turns);
double force_on(const AxialMagnet& magnet, const CurrentSheet& coil, double ampere_turns);

/// Flux linked with one turn spread over the coil [Wb]; times the turns.
double flux_linkage(const Box& coil, const AxialMagnet& magnet);

/// Two magnets far apart along their axis as dipoles: 3 mu0 m1 m2 / (2 pi d^4), attraction positive [N], d
/// between the centres. The first term of the multipole series (Jackson, Classical Electrodynamics, from
/// memory, sec. 5.6 and 5.7). The pull of cylinders is larger by 5/6 (l1^2 - 3 a1^2 + l2^2 - 3 a2^2) / d^2 of
/// it, and terms of (size/d)^4: equal ones as long as wide are met within 1 % from d = 6.5 lengths on, thin
/// rods from 13 lengths, flat discs from 11 diameters; near each other the rule is useless.
double dipole_attraction(double moment1, double moment2, double distance);

}  // namespace coilpull
