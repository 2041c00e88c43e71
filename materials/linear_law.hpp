// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include "materials/constants.hpp"
#include "materials/detail/require_number.hpp"
#include "materials/law_point.hpp"

namespace coilpull {

/// Straight B-H line.  w = B^2 / (2 mu0 mu_r),  H = dw/dB,  dH/dB = d2w/dB2.
struct LinearLaw {
  double mu_r;  ///< relative permeability, >= 1

  /// @throws BadMaterial  unless mu_r is finite and at least 1
  explicit LinearLaw(double relative_permeability)
      : mu_r(detail::require_at_least(1, "mu_r", relative_permeability)) {}

  double energy_density(double b) const { return 0.5 * b * b / (mu0 * mu_r); }
  double h(double b) const { return b / (mu0 * mu_r); }
  double dh_db(double) const { return 1 / (mu0 * mu_r); }
  FieldPoint field(double b) const { return {h(b), dh_db(b)}; }
  LawPoint at(double b) const { return {energy_density(b), h(b), dh_db(b)}; }
};

}  // namespace coilpull
