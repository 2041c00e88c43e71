// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include <limits>

#include "solver/closed_form/axial_magnet.hpp"
#include "solver/closed_form/thin_loop.hpp"

namespace coilpull {

// A source beside iron that fills all space beyond the plane z = plane_z, of constant permeability: on the
// source's side the field is that of the source and of its mirror image, (mu_r - 1)/(mu_r + 1) times as
// strong; a loop and its image carry like currents, so that everything is pulled to the iron. Jackson,
// Classical Electrodynamics, problem 5.17 (from memory); exact for the half-space. A real plate must reach
// well past the source and carry its flux unsaturated: see README.md for how much is lost when it does not.
// The source may stand on either side and may touch the plane.

inline constexpr double infinite_permeability = std::numeric_limits<double>::infinity();

/// (mu_r - 1)/(mu_r + 1); 1 for infinite permeability.
double image_factor(double mu_r);

Loop mirrored(const Loop& loop, double plane_z);
CurrentSheet mirrored(const CurrentSheet& sheet, double plane_z);
Box mirrored(const Box& section, double plane_z);

/// The image of the magnet: as long, magnetised along the same direction, weaker by image_factor.
AxialMagnet image_of(const AxialMagnet& magnet, double plane_z, double mu_r = infinite_permeability);

/// Axial force [N] on the source by the iron, positive along +z: negative when the iron is below.
/// @throws std::invalid_argument  when the plane cuts through the source
double force_by_iron(const AxialMagnet& magnet, double plane_z, double mu_r = infinite_permeability);
double force_by_iron(const Box& coil, double ampere_turns, double plane_z,
                     double mu_r = infinite_permeability);
double force_by_iron(const Loop& loop, double amperes, double plane_z, double mu_r = infinite_permeability);

}  // namespace coilpull
