// SPDX-License-Identifier: GPL-3.0-or-later
#include "materials/brauer_law.hpp"

#include <cmath>

#include "materials/bad_material.hpp"
#include "materials/constants.hpp"
#include "materials/detail/concave_inverse.hpp"
#include "materials/detail/number_text.hpp"
#include "materials/detail/require_number.hpp"

namespace coilpull {

namespace {

/// B where k1 e^x (1 + 2x) + k3 = 1/mu0 with x = k2 B^2:  x + ln(1 + 2x) = ln((1/mu0 - k3)/k1).
double full_flux_density(double k1, double k2, double k3) {
  const double target = std::log((1 / mu0 - k3) / k1);
  const auto left = [](double x) {
    return detail::ValueAndSlope{x + std::log1p(2 * x), 1 + 2 / (1 + 2 * x)};
  };
  return std::sqrt(detail::concave_inverse(left, target, 0) / k2);
}

}  // namespace

BrauerLaw::BrauerLaw(double k1, double k2, double k3, std::optional<Tail> tail)
    : k1_(detail::require_above(0, "k1", k1)),
      k2_(detail::require_above(0, "k2", k2)),
      k3_(detail::require_at_least(0, "k3", k3)) {
  if (k1 + k3 >= 1 / mu0)
    throw BadMaterial(
        "k1", "k1 = " + detail::number_text(k1) + " and k3 = " + detail::number_text(k3) +
                  ": the sum must be below 1/mu0 = 795775 A/(T m), else the permeability is below mu0");
  b_end_ = full_flux_density(k1, k2, k3);
  if (tail && !(tail->from_T > 0 && tail->from_T < b_end_))
    throw BadMaterial("tail_from_T", "tail_from_T = " + detail::number_text(tail->from_T) +
                                         ": must be above 0 and below " +
                                         detail::number_text(std::round(1e4 * b_end_) / 1e4) +
                                         ", where this law is full by itself");
  if (tail) b_end_ = tail->from_T;
  tail_.emplace(b_end_, below_tail(b_end_),
                tail ? std::optional(tail->saturation_polarization_T) : std::nullopt);
}

LawPoint BrauerLaw::below_tail(double b) const {
  const double x = k2_ * b * b;
  const double less_one = std::expm1(x);
  const double e = k1_ * (less_one + 1);
  return {0.5 * (k1_ / k2_ * less_one + k3_ * b * b), (e + k3_) * b, e * (1 + 2 * x) + k3_};
}

LawPoint BrauerLaw::at(double b) const { return b <= b_end_ ? below_tail(b) : tail_->at(b); }

}  // namespace coilpull
