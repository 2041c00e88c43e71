// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

namespace coilpull {

// Short formulas for the inductance [H] of air coils at low frequency, for head and spreadsheet; lengths in
// metres. Coefficients and papers are from memory; the misses told here are measured
// against the exact values of nagaoka.hpp and thick_coil.hpp.

/// One layer, by radius a and length l: mu0 N^2 pi a^2 / (l + 0.9 a), with Wheeler's coefficients
/// a^2 N^2 / (9 a + 10 l) uH in inches. Wheeler, Proc. IRE 16 (1928) 1398. Within 1 % from l = 0.8 a on.
double wheeler_single_layer(double radius_m, double length_m, double turns);

/// One layer of any length: mu0 N^2 a [ln(1 + pi a/l) + 1/(2.3 + 1.6 l/a + 0.44 (l/a)^2)].
/// Wheeler, Proc. IEEE 70 (1982) 1449. Within 0.1 % for every length.
double wheeler_any_length(double radius_m, double length_m, double turns);

/// Many layers, by mean radius a, length l and radial depth c: 0.8 a^2 N^2 / (6 a + 9 l + 10 c) uH in inches.
/// Wheeler, Proc. IRE 16 (1928) 1398. Within 2 % when the three terms are about equal, else no more than a
/// guess.
double wheeler_many_layers(double mean_radius_m, double length_m, double depth_m, double turns);

}  // namespace coilpull
