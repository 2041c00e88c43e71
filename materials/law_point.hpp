// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

namespace coilpull {

/// Energy density, field strength and its slope at one |B|: always from one and the same curve.
struct LawPoint {
  double energy_density;  ///< w = int_0^B H dB   [J/m^3]
  double h;               ///< H = dw/dB          [A/m]
  double dh_db;           ///< dH/dB > 0          [A/(T m)]
};

/// Field strength and slope alone, for those who ask millions of times.
struct FieldPoint {
  double h, dh_db;
};

}  // namespace coilpull
