// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

namespace coilpull {

// A bolt as a body of revolution: cylinders of the same mean section, so that they carry the same flux.
// Beware: a nut and the first turns of a thread in iron carry flux in ways no cylinder knows.

/// Diameter of the cylinder with the mean section of a metric thread, [m]. Basic profile of ISO 68-1: flats
/// of P/8 at the crest and P/4 at the root, depth 5/8 H of either flank, H = sqrt(3)/2 P (profile from
/// memory; the mean computed): d_mean^2 = d^2/8 + d1^2/4 + (5/8)(d^2 + d d1 + d1^2)/3, d1 = d - 5 sqrt(3)/8
/// P. About d - 0.59 P.
/// @throws BadMaterial  unless 0 < pitch < diameter/2
double threaded_rod_diameter(double diameter_m, double pitch_m);

/// Diameter of the cylinder with the section of a hexagon, [m]: sqrt(2 sqrt(3)/pi) = 1.050 times its width
/// across flats.
/// @throws BadMaterial  unless the width is above 0
double hexagon_head_diameter(double across_flats_m);

}  // namespace coilpull
