// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include "materials/magnetic_law.hpp"

namespace coilpull {

/// One slice of an infinite solenoid with a core, cut by two planes z = const where the natural condition
/// holds, on a mesh laid by hand: H = n I inside whatever the core is. The current sheet of radius 10 mm
/// becomes a winding outside that radius and 0.2 mm thick: B falls across it linearly, which adds to the mean
/// flux and to the coenergy
///     2 pi mu0 nI g  and  pi mu0 (nI)^2 g per metre,   g = int_0^t (R + x)(1 - x/t)^2 dx = R t/3 + t^2/12,
/// and is taken off again.
struct SolenoidSlice {
  static constexpr double core_radius = 0.006, sheet_radius = 0.010;  ///< [m]

  double sheet_flux_Wb;          ///< through the circle of the current sheet
  double core_b_T;               ///< at a point of the core
  double core_coenergy_density;  ///< [J/m^3]
};

struct SliceMesh {
  int layers = 8;  ///< columns of two triangles in core, air and winding each
  int order = 4;
};

/// @throws std::runtime_error  did not converge
SolenoidSlice solve_slice(const SoftLaw& law, double n_i_A_per_m, const SliceMesh& how = {});

}  // namespace coilpull
