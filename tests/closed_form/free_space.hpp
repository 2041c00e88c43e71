// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include <cmath>

#include "meshing/point.hpp"
#include "solver/closed_form/source_field.hpp"

namespace coilpull {

/// Slope of f at x by four points and step h: error h^4 f^(5) / 30.
template <class F>
double slope_at(double x, double h, const F& f) {
  return (8 * (f(x + h) - f(x - h)) - (f(x + 2 * h) - f(x - 2 * h))) / (12 * h);
}

/// div B and curl B by differences over h, over |B| / h: what is left of Maxwell's equations in free space.
struct Leftover {
  double divergence, curl;
};

template <class Field>
Leftover leftover_at(Point at, double h, const Field& b) {
  const double dbr_dr = slope_at(at.r, h, [&](double r) { return b({r, at.z}).br_T; });
  const double dbz_dr = slope_at(at.r, h, [&](double r) { return b({r, at.z}).bz_T; });
  const double dbr_dz = slope_at(at.z, h, [&](double z) { return b({at.r, z}).br_T; });
  const double dbz_dz = slope_at(at.z, h, [&](double z) { return b({at.r, z}).bz_T; });
  const SourceField here = b(at);
  const double scale = std::hypot(here.br_T, here.bz_T) / h;
  return {(dbr_dr + here.br_T / at.r + dbz_dz) / scale, (dbr_dz - dbz_dr) / scale};
}

/// (-dA/dz, (1/r) d(rA)/dr) by differences over h.
template <class Potential>
SourceField curl_of(Point at, double h, const Potential& a) {
  const double flux_slope = slope_at(at.r, h, [&](double r) { return r * a({r, at.z}); });
  return {-slope_at(at.z, h, [&](double z) { return a({at.r, z}); }), flux_slope / at.r};
}

}  // namespace coilpull
