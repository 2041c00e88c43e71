// SPDX-License-Identifier: GPL-3.0-or-later
#include "solver/closed_form/thin_loop.hpp"

#include <cmath>
#include <limits>

#include "materials/constants.hpp"
#include "materials/detail/nan.hpp"
#include "solver/closed_form/detail/elliptic.hpp"

namespace coilpull {

namespace {

/// Of a point at distance r from the axis and height z above a loop of radius a.
struct Distances {
  double r1, r2, s, kc;  ///< kc^2 = 1 - k1^2
};

Distances distances(double a, double r, double z) {
  const double r1 = std::sqrt((a + r) * (a + r) + z * z), r2 = std::sqrt((a - r) * (a - r) + z * z);
  return {r1, r2, r1 + r2, 2 * std::sqrt(r1 * r2) / (r1 + r2)};
}

/// A_phi per ampere, over a^2 r: symmetric in a and r.
double symmetric_potential(double a, double r, double z) {
  const Distances d = distances(a, r, z);
  if (d.kc == 0) return std::numeric_limits<double>::infinity();
  return 8 * mu0 / (pi * d.s * d.s * d.s) * detail::elliptic_pair(d.kc).d;
}

/// B_r per ampere, over a^2 r z. With D' = dD/dk1:  -dA/dz has 3 D + 2 k1 D' = 2 B/kc^2 + D.
double symmetric_radial(double a, double r, double z) {
  const Distances d = distances(a, r, z);
  if (d.kc == 0) return nan;
  const detail::EllipticPair pair = detail::elliptic_pair(d.kc);
  return 8 * mu0 / (pi * d.s * d.s * d.s * d.r1 * d.r2) * (2 / (d.kc * d.kc) * pair.b + pair.d);
}

}  // namespace

double vector_potential(const Loop& loop, double ampere_turns, Point at) {
  const double a = loop.radius;
  return ampere_turns * a * a * at.r * symmetric_potential(a, at.r, at.z - loop.z);
}

SourceField flux_density(const Loop& loop, double ampere_turns, Point at) {
  const double a = loop.radius, r = at.r, z = at.z - loop.z;
  const Distances d = distances(a, r, z);
  if (d.kc == 0) return {nan, nan};
  const auto [B, D] = detail::elliptic_pair(d.kc);
  const double r12 = d.r1 * d.r2, kc2 = d.kc * d.kc;
  // s^2 - 4 a^2 = 2 (w + r1 r2), w = r^2 - a^2 + z^2, and (r1 r2)^2 = w^2 + 4 a^2 z^2
  const double w = (r - a) * (r + a) + z * z;
  const double beyond_focus = w > 0 ? 2 * (w + r12) : 8 * a * a * z * z / (r12 - w);
  const double q = r * r * beyond_focus / (r12 * d.s * d.s);  // r ds/dr / s
  const double scale = 8 * mu0 * ampere_turns * a * a / (pi * d.s * d.s * d.s);
  return {scale * r * z / r12 * (2 / kc2 * B + D), scale * ((1 - 2 * q) / kc2 * B + (1 - q) * D)};
}

double mutual_inductance(const Loop& first, const Loop& second) {
  const double a = first.radius, b = second.radius;
  return 2 * pi * a * a * b * b * symmetric_potential(a, b, first.z - second.z);
}

double inductance_slope(const Loop& first, const Loop& second) {
  const double a = first.radius, b = second.radius, d = first.z - second.z;
  return -2 * pi * a * a * b * b * d * symmetric_radial(a, b, d);
}

}  // namespace coilpull
