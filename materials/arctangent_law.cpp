// SPDX-License-Identifier: GPL-3.0-or-later
#include "materials/arctangent_law.hpp"

#include <algorithm>
#include <cmath>

#include "materials/constants.hpp"
#include "materials/detail/concave_inverse.hpp"
#include "materials/detail/require_number.hpp"

namespace coilpull {

ArctangentLaw::ArctangentLaw(double saturation_polarization_T, double initial_susceptibility)
    : js_(detail::require_above(0, "saturation_polarization_T", saturation_polarization_T)),
      slope0_(mu0 * detail::require_above(0, "initial_susceptibility", initial_susceptibility)),
      k_(pi * slope0_ / (2 * js_)),
      above_(js_, 2 / (pi * k_)) {}

/// Lower bounds of H: J <= slope0 H, and with y = k H, J <= Js y/(y + 2/pi), because atan(u) >= u/(1 + 2u/pi)
/// for u = 1/y: the difference is 0 at both ends and its derivative changes sign once, from + to -.
double ArctangentLaw::h(double b) const {
  const auto flux_density = [this](double field) {
    const double y = k_ * field;
    return detail::ValueAndSlope{mu0 * field + 2 * js_ / pi * std::atan(y), mu0 + slope0_ / (1 + y * y)};
  };
  return detail::concave_inverse(flux_density, b, std::max(b / (mu0 + slope0_), above_.h(b)));
}

/// int H dJ = Js/(pi k) ln(1 + y^2)
LawPoint ArctangentLaw::at(double b) const {
  const double field = h(b), y = k_ * field;
  return {0.5 * mu0 * field * field + js_ / (pi * k_) * std::log1p(y * y), field,
          1 / (mu0 + slope0_ / (1 + y * y))};
}

}  // namespace coilpull
