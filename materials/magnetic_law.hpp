// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include <string_view>
#include <variant>

#include "materials/arctangent_law.hpp"
#include "materials/bh_curve.hpp"
#include "materials/brauer_law.hpp"
#include "materials/froehlich_law.hpp"
#include "materials/langevin_law.hpp"
#include "materials/linear_law.hpp"

namespace coilpull {

/// An isotropic soft magnetic material without hysteresis: H is parallel to B.
using SoftLaw = std::variant<LinearLaw, FroehlichLaw, BrauerLaw, LangevinLaw, ArctangentLaw, BhCurve>;

/// Energy density, field strength and its slope at one |B|: always from one and the same curve.
struct LawPoint {
  double energy_density;  ///< w = int_0^B H dB   [J/m^3]
  double h;               ///< H = dw/dB          [A/m]
  double dh_db;           ///< dH/dB > 0          [A/(T m)]
};

LawPoint evaluate(const SoftLaw& law, double b_T);  ///< b_T >= 0

/// H(B) of the law is a straight line, so that the field problem in it is linear.
bool is_linear(const SoftLaw& law);

}  // namespace coilpull
