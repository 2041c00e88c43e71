// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

namespace coilpull {

/// Permanent magnet on its straight recoil line: B = mu0 mu_r H + Br, energy density (B - Br)^2 / (2 mu0
/// mu_r). The components of Br are constant over the section (a constant r component is radial
/// magnetisation).
struct MagnetLaw {
  double remanence_r_T;
  double remanence_z_T;
  double recoil_permeability;  ///< relative, >= 1
};

}  // namespace coilpull
