// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include <optional>

#include "materials/froehlich_law.hpp"
#include "materials/law_point.hpp"

namespace coilpull {

/// What follows the last known point (H0, B0) of a law, J0 = B0 - mu0 H0, whatever came before:
/// J = J0 + s x/(1 + x/c), x = H - H0, s = dJ/dH at the point, so that H(B) is C1 there, and c = (Js - J0)/s,
/// so that J tends to the saturation polarization Js. With s = 0 the steel is full: slope mu0.
class SaturationTail {
public:
  /// @param last  energy, H and dH/dB at B0; a slope dH/dB of more than 1/mu0 counts as full
  /// @param saturation_polarization_T  empty: c = H0
  /// @throws BadMaterial  with the key "saturation_polarization_T" when Js is not above J0
  SaturationTail(double b0, const LawPoint& last, std::optional<double> saturation_polarization_T);

  LawPoint at(double b) const;                     ///< for b >= B0
  const LawPoint& start() const { return last_; }  ///< at B0
  double saturation_polarization() const;          ///< J that it tends to [T]

private:
  double b0_;
  LawPoint last_;
  std::optional<FroehlichLaw> rise_;  ///< of x and B - B0; empty: slope mu0
};

}  // namespace coilpull
