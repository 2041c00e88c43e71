// SPDX-License-Identifier: GPL-3.0-or-later
#include "solver/closed_form/current_sheet.hpp"

#include <cmath>
#include <limits>

#include "materials/constants.hpp"
#include "solver/closed_form/detail/elliptic.hpp"
#include "solver/closed_form/detail/gauss_points.hpp"
#include "solver/closed_form/thin_loop.hpp"

namespace coilpull {

namespace {

double length_of(const CurrentSheet& sheet) { return sheet.z_to - sheet.z_from; }
double middle_of(const CurrentSheet& sheet) { return 0.5 * (sheet.z_from + sheet.z_to); }

/// Farther off than three half lengths, where Gauss's rule of ten points leaves (3 + sqrt(8))^-20 = 5e-16.
bool is_far(double half_lengths, double along, double across) {
  return along * along + across * across > 9 * half_lengths * half_lengths;
}

/// B_z at height u above the end of a sheet that goes down for ever, less half the field of an infinite
/// sheet, over mu0 K / pi: Derby and Olbert's beta C(kc, gamma^2, 1, gamma) a/(a + r), gamma = (a - r)/(a +
/// r).
double end_share(double a, double r, double u) {
  const double sum = a + r, gamma = (a - r) / sum, r1 = std::sqrt(sum * sum + u * u);
  if (u == 0) return 0;
  const double kc = std::sqrt((a - r) * (a - r) + u * u) / r1;
  if (gamma == 0) {  // on the cylinder: (c^2 + gamma s^2)/(c^2 + gamma^2 s^2) = 1, the integral is K
    const auto [B, D] = detail::elliptic_pair(kc);
    return 0.5 * u / r1 * (B + D);
  }
  return a / sum * u / r1 * detail::cel(kc, std::abs(gamma), 1, gamma);
}

// Of two loops M(u) = mu0 a b int_0^pi cos f / sqrt(u^2 + R^2) df, R^2 = a^2 + b^2 - 2 a b cos f. Integrated
// along u, then by parts over f, and with f = pi - 2t:
//     S(u) = int_0^u M = 8 mu0 a^2 b^2 / r1  u / (a + b)^2  J(p),   J(p) = int s^2 c^2 / ((c^2 + p s^2)
//     Delta) dt G(u), G'' = M:     8 mu0 a^2 b^2 / r1 [u^2 / (a + b)^2 J(p) + J(1)]
// with c = cos t, s = sin t, p = ((a - b)/(a + b))^2, r1^2 = (a + b)^2 + u^2, kc^2 = ((a - b)^2 + u^2)/r1^2.
// The integrands are positive: nothing cancels inside them.
struct PairEnds {
  double scale, inverse_square, j_p, j_1;
};

PairEnds pair_ends(double a, double b, double u) {
  const double sum2 = (a + b) * (a + b), product = a * b, difference2 = (a - b) * (a - b);
  const double r1 = std::sqrt(sum2 + u * u), scale = 8 * mu0 * product * product / r1;
  const double kc2 = (difference2 + u * u) / (r1 * r1), k2 = 4 * product / (r1 * r1);
  if (kc2 == 0) return {scale, 1 / sum2, 0, 1.0 / 3};  // a loop met with itself: Delta = c, and u = 0
  const double kc = std::sqrt(kc2), root_p = std::abs(a - b) / (a + b), p = root_p * root_p;
  const auto [B, D] = detail::elliptic_pair(kc);
  const double third = p == 0 ? 0 : p * detail::cel(kc, root_p, 0, 1);
  return {scale, 1 / sum2, (D - third) * sum2 / (4 * product), (B - kc2 * D) / (3 * k2)};
}

double once_integrated(double a, double b, double u) {
  if (u == 0) return 0;
  const PairEnds ends = pair_ends(a, b, u);
  return ends.scale * u * ends.inverse_square * ends.j_p;
}

double twice_integrated(double a, double b, double u) {
  const PairEnds ends = pair_ends(a, b, u);
  return ends.scale * (u * u * ends.inverse_square * ends.j_p + ends.j_1);
}

using AlongPair = double (*)(double a, double b, double u);

/// int int f''(z1 - z2) dz1 dz2 over both sheets, for f = twice_integrated: of M; for its derivative: of
/// dM/dz.
double corner_sum(const CurrentSheet& first, const CurrentSheet& second, AlongPair f) {
  const double a = first.radius, b = second.radius;
  return (f(a, b, first.z_to - second.z_from) - f(a, b, first.z_to - second.z_to)) -
         (f(a, b, first.z_from - second.z_from) - f(a, b, first.z_from - second.z_to));
}

using LoopPair = double (*)(const Loop&, const Loop&);

double mean_over_loops(const CurrentSheet& first, const CurrentSheet& second, LoopPair f) {
  return detail::gauss_mean(first.z_from, first.z_to, [&](double z1) {
    return detail::gauss_mean(second.z_from, second.z_to, [&](double z2) {
      return f({first.radius, z1}, {second.radius, z2});
    });
  });
}

bool are_far(const CurrentSheet& first, const CurrentSheet& second) {
  return is_far(0.5 * (length_of(first) + length_of(second)), middle_of(first) - middle_of(second),
                first.radius - second.radius);
}

}  // namespace

SourceField flux_density(const CurrentSheet& sheet, double ampere_turns, Point at) {
  const double a = sheet.radius, length = length_of(sheet);
  if (is_far(0.5 * length, at.z - middle_of(sheet), a - at.r))
    return detail::gauss_mean(sheet.z_from, sheet.z_to, [&](double z) {
      return flux_density(Loop{a, z}, ampere_turns, at);
    });
  const double per_length = ampere_turns / length;
  const double br = vector_potential(Loop{a, sheet.z_to}, per_length, at) -
                    vector_potential(Loop{a, sheet.z_from}, per_length, at);
  const double bz = end_share(a, at.r, at.z - sheet.z_from) - end_share(a, at.r, at.z - sheet.z_to);
  return {br, mu0 * per_length / pi * bz};
}

double vector_potential(const CurrentSheet& sheet, double ampere_turns, Point at) {
  const double a = sheet.radius, length = length_of(sheet);
  if (at.r == 0) return 0;
  if (is_far(0.5 * length, at.z - middle_of(sheet), a - at.r))
    return detail::gauss_mean(sheet.z_from, sheet.z_to, [&](double z) {
      return vector_potential(Loop{a, z}, ampere_turns, at);
    });
  if (at.r < 0.05 * a)  // B_z is a series in r^2 of radius a^2: ten points leave nothing
    return 0.5 * at.r * detail::gauss_mean(0, 1, [&](double t) {
             return flux_density(sheet, ampere_turns, {at.r * std::sqrt(t), at.z}).bz_T;
           });
  const double linked =
      once_integrated(a, at.r, at.z - sheet.z_from) - once_integrated(a, at.r, at.z - sheet.z_to);
  return ampere_turns / length * linked / (2 * pi * at.r);
}

double mutual_inductance(const CurrentSheet& first, const CurrentSheet& second) {
  if (are_far(first, second)) return mean_over_loops(first, second, mutual_inductance);
  return corner_sum(first, second, twice_integrated) / (length_of(first) * length_of(second));
}

double inductance_slope(const CurrentSheet& first, const CurrentSheet& second) {
  if (are_far(first, second)) return mean_over_loops(first, second, inductance_slope);
  return corner_sum(first, second, once_integrated) / (length_of(first) * length_of(second));
}

double axis_flux_density(const CurrentSheet& sheet, double ampere_turns, double z) {
  const auto cosine = [&](double u) { return u / std::hypot(sheet.radius, u); };
  return 0.5 * mu0 * ampere_turns / length_of(sheet) * (cosine(z - sheet.z_from) - cosine(z - sheet.z_to));
}

}  // namespace coilpull
