// SPDX-License-Identifier: GPL-3.0-or-later
#include "solver/closed_form/nagaoka.hpp"

#include <cmath>

#include "materials/constants.hpp"
#include "solver/closed_form/detail/elliptic.hpp"

namespace coilpull {

namespace {

/// Arithmetic-geometric mean of 1 and 1 - drop, less 1, with every digit of a small drop.
double mean_less_one(double drop) {
  double a = 0, g = -drop;                    // both less 1
  while ((a - g) * (a - g) > 1e-16 * drop) {  // the mean misses a sixteenth of this square
    const double product = a + g + a * g;
    a = 0.5 * (a + g);
    g = product / (1 + std::sqrt(1 + product));
  }
  return 0.5 * (a + g);
}

}  // namespace

double nagaoka_coefficient(double diameter_over_length) {
  const double x = diameter_over_length, root = std::sqrt(1 + x * x);
  const double k = x / root, kc = 1 / root, kc2 = kc * kc;
  if (x == 0) return 1;
  const auto [B, D] = detail::elliptic_pair(kc);
  double e_less_k = B + kc2 * D - k;
  if (x > 1) {
    // E and k both tend to 1. Legendre's relation with K' = pi / (2 mean(1, k)) gives
    // E - 1 = mean(1, k) - 1 + kc^2 K D' / K', and 1 - k = kc^2 / (1 + k).
    const double drop = kc2 / (1 + k);
    const auto [b_other, d_other] = detail::elliptic_pair(k);
    e_less_k = mean_less_one(drop) + kc2 * (B + D) * d_other / (b_other + d_other) + drop;
  }
  return 4 / (3 * pi * kc) * (kc2 * D + e_less_k);
}

double solenoid_inductance(double radius_m, double length_m, double turns) {
  return mu0 * turns * turns * pi * radius_m * radius_m / length_m *
         nagaoka_coefficient(2 * radius_m / length_m);
}

}  // namespace coilpull
