// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include <optional>
#include <variant>
#include <vector>

#include "materials/magnet_law.hpp"
#include "materials/magnetic_law.hpp"

namespace coilpull {

/// Turns of one circuit spread evenly over a region's section; negative when wound the other way.
struct Winding {
  int circuit;            ///< number of the circuit, from 0
  double turns_per_area;  ///< [1/m^2]; times the current: J_phi, positive counter-clockwise seen from +z
};

/// What fills a region of the mesh.
struct RegionPhysics {
  std::variant<SoftLaw, MagnetLaw> material = SoftLaw{LinearLaw{1.0}};  ///< air unless said otherwise
  std::optional<Winding> winding = {};
  /// Hc along z of saturable steel [A/m]: H = law's H - Hc, the energy U(B) - Hc B_z. What hysteresis can
  /// leave.
  double shift_A_per_m = 0;
};

/// Laws and sources of all regions, for any currents; no mesh.
struct Problem {
  std::vector<RegionPhysics> regions;  ///< in the order of Mesh::region_names
  int circuits = 0;
  double background_bz_T = 0;  ///< uniform field far away
  double blending_length;      ///< r0 of the unknown v = psi (r^2 + r0^2) / r^2 [m]
};

}  // namespace coilpull
