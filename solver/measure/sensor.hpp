// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include "solver/field/field.hpp"

namespace coilpull {

/// B at a point, or its mean over a disc of radius face_radius normal to z and centred at the point (its
/// radial component along the radius through the centre of the disc). On the axis the mean of B_z is the flux
/// over the area, 2 A_phi(a) / a; elsewhere a product rule on the disc, 6 radii by 16 angles, exact for
/// polynomials of degree 11 (Stroud, Approximate Calculation of Multiple Integrals, 1971, sec. 2.6).
FluxDensity sensor_field(const Field& field, Point at, double face_radius);

}  // namespace coilpull
