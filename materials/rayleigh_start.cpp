// SPDX-License-Identifier: GPL-3.0-or-later
#include "materials/rayleigh_start.hpp"

#include "materials/bad_material.hpp"
#include "materials/detail/number_text.hpp"
#include "materials/detail/require_number.hpp"

namespace coilpull {

RayleighStart rayleigh_through(double h, double b, double mu_i) {
  detail::require_at_least(1, "initial_permeability", mu_i);
  const double mu = b / (mu0 * h);
  if (!(mu_i < mu))
    throw BadMaterial("initial_permeability",
                      "initial_permeability = " + detail::number_text(mu_i) + ": must be below B/(mu0 H) = " +
                          detail::number_text(std::round(mu)) + " of the first point above zero");
  return {mu_i, (mu - mu_i) / h};
}

}  // namespace coilpull
