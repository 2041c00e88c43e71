// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

namespace coilpull {

inline constexpr double pi = 3.14159265358979323846;

/// Permeability of vacuum [V s / (A m)], the exact value of the SI before 2019; the 2022 CODATA
/// value is larger by 1.3e-10, far below every bar of this project.
inline constexpr double mu0 = 4e-7 * pi;

/// [m/s^2], exact by convention: 3rd CGPM, 1901.
inline constexpr double standard_gravity = 9.80665;

}  // namespace coilpull
