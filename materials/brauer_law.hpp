// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include "materials/law_point.hpp"

namespace coilpull {

/// H = (k1 exp(k2 B^2) + k3) B  (Brauer, IEEE Trans. Magn. 11 (1975) 81), continued with slope 1/mu0 from the
/// point where dH/dB = k1 exp(k2 B^2) (1 + 2 k2 B^2) + k3 reaches 1/mu0: there the steel is full, J stays as
/// it is.
class BrauerLaw {
public:
  /// k1, k3 [A/(T m)], k2 [1/T^2].
  /// @throws BadMaterial  unless k1 > 0, k2 > 0, k3 >= 0 and k1 + k3 < 1/mu0
  BrauerLaw(double k1, double k2, double k3);

  double h(double b) const { return at(b).h; }
  double dh_db(double b) const { return at(b).dh_db; }
  double energy_density(double b) const { return at(b).energy_density; }
  LawPoint at(double b) const;
  FieldPoint field(double b) const {
    const LawPoint point = at(b);
    return {point.h, point.dh_db};
  }

  double saturation_flux_density() const { return b_full_; }  ///< B where the tail begins [T]
  double saturation_polarization() const;                     ///< J there and above [T]

private:
  LawPoint below_tail(double b) const;

  double k1_, k2_, k3_;
  double b_full_;
  LawPoint full_;
};

}  // namespace coilpull
