// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

namespace coilpull::detail {

// Complete elliptic integrals with Delta = sqrt(cos^2 t + kc^2 sin^2 t) = sqrt(1 - k^2 sin^2 t), t from 0 to
// pi/2. Beware: the argument is the complementary modulus kc = sqrt(1 - k^2), not k (which std::comp_ellint_1
// takes) and not m = k^2 (which many printed tables take): near the wire kc holds the digits that k has lost.

/// int (a cos^2 t + b sin^2 t) / ((cos^2 t + p sin^2 t) Delta) dt, with root_p = sqrt(p) > 0 and kc > 0.
/// Bulirsch, Numer. Math. 7 (1965) 78 (from memory); full double accuracy when the terms of a and b do not
/// cancel.
double cel(double kc, double root_p, double a, double b);

/// B = int cos^2 t / Delta dt and D = int sin^2 t / Delta dt, so that K = B + D and E = B + kc^2 D without
/// cancellation; kc > 0.
struct EllipticPair {
  double b, d;
};
EllipticPair elliptic_pair(double kc);

}  // namespace coilpull::detail
