// SPDX-License-Identifier: GPL-3.0-or-later
#include "materials/saturation_tail.hpp"

#include <cmath>

#include "materials/bad_material.hpp"
#include "materials/constants.hpp"
#include "materials/detail/number_text.hpp"

namespace coilpull {

SaturationTail::SaturationTail(double b0, const LawPoint& last,
                               std::optional<double> saturation_polarization_T)
    : b0_(b0), last_(last) {
  const double j0 = b0 - mu0 * last.h;
  if (saturation_polarization_T &&
      !(*saturation_polarization_T > j0 && std::isfinite(*saturation_polarization_T)))
    throw BadMaterial("saturation_polarization_T",
                      "saturation_polarization_T = " + detail::number_text(*saturation_polarization_T) +
                          ": must be above B - mu0 H = " + detail::number_text(j0) + " T of the last point");
  constexpr double full = 1e-9;  // dJ/dH <= full * mu0 counts as 0
  const double s = 1 / last.dh_db - mu0;
  if (s <= full * mu0) return;
  const double c = saturation_polarization_T ? (*saturation_polarization_T - j0) / s : last.h;
  rise_.emplace(s * c, c);
}

LawPoint SaturationTail::at(double b) const {
  const double beyond = b - b0_;
  const LawPoint more =
      rise_ ? rise_->at(beyond) : LawPoint{0.5 * beyond * beyond / mu0, beyond / mu0, 1 / mu0};
  return {last_.energy_density + last_.h * beyond + more.energy_density, last_.h + more.h, more.dh_db};
}

double SaturationTail::saturation_polarization() const {
  return b0_ - mu0 * last_.h + (rise_ ? rise_->saturation_polarization() : 0);
}

}  // namespace coilpull
