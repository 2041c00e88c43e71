// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include <string>

#include "materials/magnetic_law.hpp"
#include "meshing/outline.hpp"
#include "solver/device/device.hpp"

namespace coilpull {

Outline ball(double radius, double centre_z);            ///< two quarter arcs, exact
Outline hollow_ball(double radius, double bore_radius);  ///< a spherical shell about z = 0

/// Ellipsoid of revolution about z = 0 as `arcs` circular arcs a quarter, each through the ellipse at both
/// ends and halfway: they leave it by about 1e-6 of the radius at 16 arcs and 2 : 1.
Outline spheroid(double radius, double half_length, int arcs);

/// One core in a uniform field that is H0 without it; the mesh reaches up to z = far at least.
Device core_in_field(const Outline& outline, const SoftLaw& law, double h0_A_per_m, double far);

}  // namespace coilpull
