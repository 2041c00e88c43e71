// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include <optional>
#include <vector>

#include "apps/advice/heat_advice.hpp"

namespace coilpull {

/// How the current dies away through the winding and something that holds a voltage against it: a diode, a
/// clamp.
struct SwitchOff {
  double volts;
  Measured seconds;  ///< until it is 0
  Measured taken_J;  ///< by diode or clamp; the rest warms the winding
};

/// A moment after switching off.
struct DyingCurrent {
  double seconds, current_A;
};

/// What parts have to bear. Plain figures of this circuit, and what common practice makes of them.
struct RatingAdvice {
  double current_A;        ///< the largest, the winding cold
  double supply_V;         ///< of the supply; of a held current: what drives it through cold copper and loop
  Measured stored_J;       ///< magnetic energy that the current brought in, where that is most
  double stored_at;        ///< [m]
  SwitchOff diode, clamp;  ///< the stated ones or assumed
  bool diode_assumed, clamp_assumed;
  std::vector<DyingCurrent> with_diode, with_clamp;
  double switch_V;    ///< supply + clamp
  double square_A2s;  ///< integral of i^2 over a pulse
  double jammed_A2s;  ///< until the insulation's class, the supply held
  double lead_V, lead_W;
  double switch_J;                                      ///< lost in its resistance in a pulse
  std::optional<double> capacitor_left_V, capacitor_J;  ///< after a pulse; charged
  double switch_ohm;
};

/// Integrals over the current at a fixed displacement, since L di/dt = -(R i + V):
///   time = int L di / (R i + V),   taken = int V L i di / (R i + V),
/// L the incremental inductance there. Iron losses are left out, so both are upper bounds. Bars: L di is the
/// change of the linkage, so the parts of both integrals sum to what its widest bar b on the way leaves:
///   2 b / V of the time, whose weight 1 / (R i + V) is largest at the end,
///   2 b V i / (R i + V) of the energy, whose weight is largest at the full current.
SwitchOff switch_off(const DriveTable& drive, double displacement, double current_A, double ohm,
                     double volts);

RatingAdvice rating_advice(const DeviceFile& file, const DriveTable& drive, const HeatAdvice& heat);

}  // namespace coilpull
