// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include <cmath>

#include "materials/constants.hpp"
#include "materials/law_point.hpp"

namespace coilpull {

/// Initial curve in weak fields, B = mu0 (mu_i H + nu H^2) (Rayleigh, Phil. Mag. 23 (1887) 225; citation from
/// memory).
struct RayleighStart {
  double mu_i;        ///< initial relative permeability, > 0
  double nu_m_per_A;  ///< >= 0

  LawPoint at(double b) const {
    const double root = std::sqrt(mu_i * mu_i + 4 * nu_m_per_A * b / mu0);
    const double h = 2 * b / (mu0 * (mu_i + root));
    return {mu0 * h * h * (mu_i / 2 + 2 * nu_m_per_A * h / 3), h, 1 / (mu0 * root)};
  }
};

/// The parabola with that initial permeability through (H, B). @throws BadMaterial  with the key
/// "initial_permeability" unless 1 <= mu_i < B/(mu0 H)
RayleighStart rayleigh_through(double h, double b, double mu_i);

}  // namespace coilpull
