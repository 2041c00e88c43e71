// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include "materials/froehlich_law.hpp"
#include "materials/law_point.hpp"

namespace coilpull {

/// J = Js (coth(H/a) - a/H),  B = mu0 H + J  (Langevin, Ann. Chim. Phys. 5 (1905) 70; citation from memory).
/// Initial susceptibility Js / (3 mu0 a).
class LangevinLaw {
public:
  /// Js: saturation polarization [T], a: shape field [A/m].
  /// @throws BadMaterial  unless both are finite and above 0
  LangevinLaw(double saturation_polarization_T, double shape_field_A_per_m);

  double saturation_polarization() const { return js_; }  ///< [T]

  double h(double b) const;
  double dh_db(double b) const { return at(b).dh_db; }
  double energy_density(double b) const { return at(b).energy_density; }
  LawPoint at(double b) const;
  FieldPoint field(double b) const;

private:
  double js_, a_;
  FroehlichLaw above_;  ///< Js H/(H + a) >= J: its H(B) is a lower bound
};

}  // namespace coilpull
