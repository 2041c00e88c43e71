// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include "materials/froehlich_law.hpp"
#include "materials/law_point.hpp"

namespace coilpull {

/// J = (2 Js/pi) atan(pi chi0 mu0 H / (2 Js)),  B = mu0 H + J.
class ArctangentLaw {
public:
  /// Js: saturation polarization [T], chi0: initial susceptibility dJ/dH / mu0 at H = 0.
  /// @throws BadMaterial  unless both are finite and above 0
  ArctangentLaw(double saturation_polarization_T, double initial_susceptibility);

  double saturation_polarization() const { return js_; }  ///< [T]

  double h(double b) const;
  double dh_db(double b) const { return at(b).dh_db; }
  double energy_density(double b) const { return at(b).energy_density; }
  LawPoint at(double b) const;
  FieldPoint field(double b) const {
    const LawPoint point = at(b);
    return {point.h, point.dh_db};
  }

private:
  double js_, slope0_;  ///< [T], dJ/dH at H = 0 [T m/A]
  double k_;            ///< pi slope0 / (2 Js) [m/A]
  FroehlichLaw above_;  ///< >= J: its H(B) is a lower bound
};

}  // namespace coilpull
