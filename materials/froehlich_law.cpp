// SPDX-License-Identifier: GPL-3.0-or-later
#include "materials/froehlich_law.hpp"

#include "materials/detail/require_number.hpp"

namespace coilpull {

namespace {

/// ln(1 + x) - x/(1 + x) for x >= 0. With s = x/(2 + x): 2 s^2/(1 + s) + 2 (s^3/3 + s^5/5 + ...), positive
/// terms.
double log_less_hyperbola(double x) {
  if (x > 0.5) return std::log1p(x) - x / (1 + x);  // a sixth of the logarithm is left, or more
  const double s = x / (2 + x), s2 = s * s;         // s2 <= 1/25: twelve terms reach rounding
  double sum = 0;
  for (int k = 25; k >= 3; k -= 2) sum = sum * s2 + 1.0 / k;
  return 2 * s2 * (1 / (1 + s) + s * sum);
}

}  // namespace

FroehlichLaw::FroehlichLaw(double saturation_polarization_T, double half_field_A_per_m)
    : js_(detail::require_above(0, "saturation_polarization_T", saturation_polarization_T)),
      ha_(detail::require_above(0, "half_field_A_per_m", half_field_A_per_m)) {}

/// w = mu0 H^2/2 + int H dJ,  int H dJ = Js Ha [ln(1 + H/Ha) - H/(H + Ha)]
double FroehlichLaw::energy_at(double field) const {
  return 0.5 * mu0 * field * field + js_ * ha_ * log_less_hyperbola(field / ha_);
}

}  // namespace coilpull
