// SPDX-License-Identifier: GPL-3.0-or-later
#include "materials/langevin_law.hpp"

#include <algorithm>
#include <cmath>

#include "materials/constants.hpp"
#include "materials/detail/concave_inverse.hpp"
#include "materials/detail/require_number.hpp"

namespace coilpull {

namespace {

/// L(x)/x for 0 <= x <= 1 from the continued fraction L(x) = x/(3 + x^2/(5 + x^2/(7 + ...))) of the ratio of
/// the modified spherical Bessel functions i1/i0 (NIST DLMF 10.33.1 with order 1/2): positive terms, no
/// cancellation.
double langevin_over_x(double x) {
  const double x2 = x * x;
  double tail = 19;
  for (int k = 17; k >= 3; k -= 2) tail = k + x2 / tail;
  return 1 / tail;
}

/// L(x) = coth x - 1/x and L'(x) = 1/x^2 - 1/sinh^2 x = 1 - 2 L/x - L^2.
detail::ValueAndSlope langevin(double x) {
  if (x < 1) {
    const double ratio = langevin_over_x(x), value = x * ratio;
    return {value, 1 - 2 * ratio - value * value};
  }
  const double small = 1 / std::expm1(2 * x);  // coth x = 1 + 2 small, 1/sinh^2 x = 4 small (1 + small)
  const double inverse = 1 / x;
  return {1 - inverse + 2 * small, inverse * inverse - 4 * small * (1 + small)};
}

/// int_0^x t L'(t) dt = x L(x) - ln(sinh(x)/x)
double langevin_energy(double x) {
  if (x < 1) {
    const double x2 = x * x;
    double more = 0;  // sinh(x)/x - 1 = x^2/6 (1 + x^2/20 (1 + x^2/42 (1 + ...)))
    for (int k = 8; k >= 1; --k) more = x2 / (2 * k * (2 * k + 1)) * (1 + more);
    return x2 * langevin_over_x(x) - std::log1p(more);
  }
  return 2 * x / std::expm1(2 * x) - 1 + std::log(2 * x) - std::log1p(-std::exp(-2 * x));
}

}  // namespace

LangevinLaw::LangevinLaw(double saturation_polarization_T, double shape_field_A_per_m)
    : js_(detail::require_above(0, "saturation_polarization_T", saturation_polarization_T)),
      a_(detail::require_above(0, "shape_field_A_per_m", shape_field_A_per_m)),
      above_(js_, a_) {}

/// Lower bounds of H: L(x) <= x/3, and L(x) <= x/(1 + x) since exp(2x) - 1 >= 2x + 2x^2.
double LangevinLaw::h(double b) const {
  const auto flux_density = [this](double field) {
    const detail::ValueAndSlope l = langevin(field / a_);
    return detail::ValueAndSlope{mu0 * field + js_ * l.value, mu0 + js_ / a_ * l.slope};
  };
  return detail::concave_inverse(flux_density, b, std::max(b / (mu0 + js_ / (3 * a_)), above_.h(b)));
}

FieldPoint LangevinLaw::field(double b) const {
  const double field = h(b);
  return {field, 1 / (mu0 + js_ / a_ * langevin(field / a_).slope)};
}

LawPoint LangevinLaw::at(double b) const {
  const auto [field, slope] = this->field(b);
  return {0.5 * mu0 * field * field + js_ * a_ * langevin_energy(field / a_), field, slope};
}

}  // namespace coilpull
