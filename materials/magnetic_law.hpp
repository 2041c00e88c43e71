// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include <variant>

#include "materials/arctangent_law.hpp"
#include "materials/bh_curve.hpp"
#include "materials/brauer_law.hpp"
#include "materials/froehlich_law.hpp"
#include "materials/langevin_law.hpp"
#include "materials/law_point.hpp"
#include "materials/linear_law.hpp"

namespace coilpull {

/// An isotropic soft magnetic material without hysteresis: H is parallel to B.
using SoftLaw = std::variant<LinearLaw, FroehlichLaw, BrauerLaw, LangevinLaw, ArctangentLaw, BhCurve>;

/// All three of one |B| from a single inversion of the law; finite for every finite b_T >= 0.
LawPoint evaluate(const SoftLaw& law, double b_T);

/// w* = H B - w, the integral of B dH, at that |B| [J/m^3].
double coenergy_density(const SoftLaw& law, double b_T);

/// B at a field strength H >= 0: the inverse of the law to rounding. [T]
double flux_density(const SoftLaw& law, double h_A_per_m);

/// H(B) of the law is a straight line, so that the field problem in it is linear.
bool is_linear(const SoftLaw& law);

}  // namespace coilpull
