// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include <limits>
#include <optional>
#include <vector>

namespace coilpull {

/// What moves, and what else pulls at it: m dv/dt = F(z, i) + force - spring (z - spring_rest) - damping v.
struct Mover {
  double mass_kg;  ///< > 0
  double force_N = 0;
  double spring_N_per_m = 0, spring_rest = 0;  ///< rest: displacement without tension [m]
  double damping_N_s_per_m = 0;
  bool held = false;  ///< stays where it starts: a test of the circuit
};

/// A capacitor that all stages share: du/dt = -(sum of polarity i over those connected) / farad.
struct Bank {
  double farad;    ///< > 0
  double ohm = 0;  ///< in series with it: every connected stage feels the sum of the currents
};

/// What drives the coil of one stage: d(linkage)/dt = polarity u - drop - (R + ohm) i, with u the supply's
/// voltage, or that of the bank behind its resistance. Whoever opens or reverses something starts again from
/// the last state: simulate_switched_stroke does.
struct Drive {
  double supply_V = 0;
  bool from_bank = false;  ///< instead of the supply
  double ohm = 0;          ///< of supply, switch and leads
  double polarity = 1;     ///< 1, or -1 when reversed
  double drop_V = 0;       ///< of a diode or clamp; has the sign of the current
  /// The current stays so, whatever voltage that takes: a limit, or 0 for an open circuit. A supply then
  /// delivers just that voltage; what a bank has too much becomes heat [A].
  std::optional<double> held_A = {};
  double place = 0;  ///< the stage sees the mover at displacement - place [m]
};

/// R(T) = resistance (1 + per_kelvin (T - 20)); C dT/dt = R i^2 - cooling (T - around).
struct WindingBody {
  double resistance_20_ohm;
  double per_kelvin = 0.00393;                                             ///< copper, IEC 60028
  double heat_capacity_J_per_K = std::numeric_limits<double>::infinity();  ///< of the wire
  double cooling_W_per_K = 0;
  double around_degC = 20;
};

/// One stage or several equal ones, each with a winding of its own.
struct StrokeSetup {
  Mover mover;
  std::vector<Drive> stages;
  WindingBody winding;
  /// Where the mover meets a stop; the run ends there [m]. Default: the outer ends of the stages' tables.
  std::optional<double> stop_low = {}, stop_high = {};
  std::optional<Bank> bank = {};
};

}  // namespace coilpull
