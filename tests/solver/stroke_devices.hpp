// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include <functional>

#include "solver/motion/fit_coenergy.hpp"
#include "solver/motion/switched_stroke.hpp"

// Invented devices whose strokes are known in closed form, or whose energy is all that is asked.
namespace coilpull {

/// W' from rows every mm of -10 to 10 mm and every A of -10 to 10 A, with bars of 1e-6.
CoenergyFunction fitted(const std::function<CoenergyPoint(double, double)>& device);

inline constexpr double L = 5e-3, pull = 2.0;

/// Coefficients of x^power on an axis, to rounding: a spline of degree 5 holds it exactly.
Eigen::VectorXd power_on(const SplineAxis& axis, int power);

/// Inductance L wherever it stands, and a force that no current changes: W' = L i^2/2 + pull z.
CoenergyFunction coil();

/// A magnet that pulls by `newton_per_ampere` wherever it stands: W' = newton_per_ampere z i + L i^2/2.
CoenergyFunction magnet_in_coil(double newton_per_ampere);

/// A plunger drawn to the middle that saturates.
CoenergyFunction plunger();

/// Of the first such event, which the run must have.
double time_of(const SwitchedRun& run, StrokeEvent event);

}  // namespace coilpull
