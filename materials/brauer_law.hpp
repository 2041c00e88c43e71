// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include <optional>

#include "materials/law_point.hpp"
#include "materials/saturation_tail.hpp"

namespace coilpull {

/// H = (k1 exp(k2 B^2) + k3) B  (Brauer, IEEE Trans. Magn. 11 (1975) 81), continued with slope 1/mu0 from the
/// point where dH/dB = k1 exp(k2 B^2) (1 + 2 k2 B^2) + k3 reaches 1/mu0: there the steel is full, J stays as
/// it is. That is often a poor saturation: from a lower B on, SaturationTail can lead to the right one.
class BrauerLaw {
public:
  /// Where the formula ends and what J tends to from there.
  struct Tail {
    double from_T, saturation_polarization_T;
  };

  /// k1, k3 [A/(T m)], k2 [1/T^2].
  /// @throws BadMaterial  unless k1 > 0, k2 > 0, k3 >= 0 and k1 + k3 < 1/mu0; the tail has to begin above 0
  /// and
  ///   before the steel is full, with a polarization below the saturation
  BrauerLaw(double k1, double k2, double k3, std::optional<Tail> tail = {});

  double h(double b) const { return at(b).h; }
  double dh_db(double b) const { return at(b).dh_db; }
  double energy_density(double b) const { return at(b).energy_density; }
  LawPoint at(double b) const;
  FieldPoint field(double b) const {
    const LawPoint point = at(b);
    return {point.h, point.dh_db};
  }

  double saturation_flux_density() const { return b_end_; }  ///< B where the tail begins [T]
  double saturation_polarization() const { return tail_->saturation_polarization(); }  ///< J far away [T]

private:
  LawPoint below_tail(double b) const;

  double k1_, k2_, k3_;
  double b_end_;
  std::optional<SaturationTail> tail_;  ///< always there
};

}  // namespace coilpull
