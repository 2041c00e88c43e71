// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include <cmath>

#include "materials/constants.hpp"
#include "materials/law_point.hpp"

namespace coilpull {

/// Saturating hyperbola  J = Js H / (H + Ha),  B = mu0 H + J  (Froehlich 1881; Kennelly, Trans. AIEE 8 (1891)
/// 485; citations from memory).  Initial susceptibility Js / (mu0 Ha); J is half of Js at H = Ha.
class FroehlichLaw {
public:
  /// Js: saturation polarization [T], Ha: half field [A/m].
  /// @throws BadMaterial  unless both are finite and above 0
  FroehlichLaw(double saturation_polarization_T, double half_field_A_per_m);

  double saturation_polarization() const { return js_; }  ///< [T]
  double half_field() const { return ha_; }               ///< [A/m]

  /// The positive root of  mu0 H^2 + p H - B Ha = 0,  p = mu0 Ha + Js - B, in the form without cancellation.
  double h(double b) const {
    const double p = mu0 * ha_ + js_ - b;
    const double root = std::sqrt(p * p + 4 * mu0 * ha_ * b);
    return p > 0 ? 2 * ha_ * b / (root + p) : (root - p) / (2 * mu0);
  }
  double dh_db(double b) const { return slope_at(h(b)); }
  double energy_density(double b) const { return energy_at(h(b)); }
  FieldPoint field(double b) const {
    const double field = h(b);
    return {field, slope_at(field)};
  }
  LawPoint at(double b) const {
    const double field = h(b);
    return {energy_at(field), field, slope_at(field)};
  }

private:
  /// dB/dH = mu0 + Js Ha / (H + Ha)^2
  double slope_at(double field) const {
    const double sum = field + ha_;
    return 1 / (mu0 + js_ * (ha_ / sum) / sum);
  }
  double energy_at(double field) const;

  double js_, ha_;
};

}  // namespace coilpull
