// SPDX-License-Identifier: GPL-3.0-or-later
#include "solver/closed_form/detail/elliptic.hpp"

#include <cmath>

#include "materials/constants.hpp"

namespace coilpull::detail {

namespace {
constexpr double close_enough = 1e-8;  // the error of a mean is squared at each step
}

double cel(double kc, double root_p, double a, double b) {
  double e = kc, m = 1, k = kc, p = root_p;
  b /= p;
  for (;;) {
    const double f = a, g = e / p;
    a += b / p;
    b = 2 * (b + f * g);
    p += g;
    const double before = m;
    m += k;
    if (std::abs(before - k) <= close_enough * before) break;
    k = 2 * std::sqrt(e);
    e = k * m;
  }
  return 0.5 * pi * (b + a * m) / (m * (m + p));
}

EllipticPair elliptic_pair(double kc) {
  // cel with p = 1 for (a, b) = (1, 0) and (0, 1) at once
  double e = kc, m = 1, k = kc, p = 1, ba = 1, bb = 0, da = 0, db = 1;
  for (;;) {
    const double g = e / p, inverse = 1 / p, b_before = ba, d_before = da;
    ba += bb * inverse;
    bb = 2 * (bb + b_before * g);
    da += db * inverse;
    db = 2 * (db + d_before * g);
    p += g;
    const double before = m;
    m += k;
    if (std::abs(before - k) <= close_enough * before) break;
    k = 2 * std::sqrt(e);
    e = k * m;
  }
  const double scale = 0.5 * pi / (m * (m + p));
  return {scale * (bb + ba * m), scale * (db + da * m)};
}

}  // namespace coilpull::detail
