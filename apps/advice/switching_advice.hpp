// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include <optional>
#include <vector>

#include "apps/advice/drive.hpp"
#include "apps/output/sign_changes.hpp"

namespace coilpull {

/// From where to where a current helps most, for a mover that passes the whole stroke one way.
struct SwitchingWindow {
  double current_A;
  Measured on, off;  ///< displacements [m]; error 0 at an end of the stroke
  bool on_is_end, off_is_end;
  Measured gain_J;  ///< work over [on, off] less what happens there without current
  Measured left_N;  ///< force without current where it is switched off: what stays
};

struct SwitchingSide {
  int sense;                                ///< +1: moves towards +z
  std::optional<SwitchingWindow> plain;     ///< one current, on once and off once; none: no current helps
  std::optional<SwitchingWindow> reversed;  ///< the other sense of current, where the first is off
};

struct SwitchingAdvice {
  double current_A;  ///< both senses of it are tried; where the table ends before it, its end
  std::vector<SignChange> turns_off;  ///< where the force changes its sign with the current off
  std::optional<Measured> strongest_off_N;
  double strongest_off_at = 0;  ///< [m]
  SwitchingSide towards_plus, towards_minus;
};

/// F(z, i) - F(z, 0) is what a current does beside what the magnet does anyway; over the whole stroke the
/// latter is the same whatever one switches. A window starts and ends where that difference, times the sense
/// of motion, changes sign; of all windows of either sense of current the one of most work is best. Sign
/// changes closer than a step of a thousandth of the stroke are not told apart. Statics: the current stands
/// at once.
SwitchingAdvice switching_advice(const ForceTable& table, const DriveTable& drive, double current_A);

}  // namespace coilpull
