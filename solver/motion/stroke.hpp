// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include <functional>
#include <limits>
#include <optional>
#include <vector>

#include "solver/motion/coenergy_function.hpp"

namespace coilpull {

/// What moves, and what else pulls at it: m dv/dt = F(z, i) + force - spring (z - spring_rest) - damping v.
struct Mover {
  double mass_kg;  ///< > 0
  double force_N = 0;
  double spring_N_per_m = 0, spring_rest = 0;  ///< rest: displacement without tension [m]
  double damping_N_s_per_m = 0;
  bool held = false;  ///< stays where it starts: a test of the circuit
};

/// What drives the coil: d(linkage)/dt = polarity u - drop - (R + ohm) i, with u the supply's voltage, or
/// that of a capacitor, du/dt = -polarity i / C. Whoever opens or reverses something starts again from the
/// last state: simulate_switched_stroke does.
struct Drive {
  double supply_V = 0;
  std::optional<double> capacitor_F = {};  ///< instead of the supply
  double ohm = 0;                          ///< of supply, switch and leads
  double polarity = 1;                     ///< 1, or -1 when reversed
  double drop_V = 0;                       ///< of a diode or clamp; has the sign of the current
  /// The current stays so, whatever voltage that takes: a limit, or 0 for an open circuit. A supply then
  /// delivers just that voltage; what a capacitor has too much becomes heat [A].
  std::optional<double> held_A = {};
};

/// R(T) = resistance (1 + per_kelvin (T - 20)); C dT/dt = R i^2 - cooling (T - around).
struct WindingBody {
  double resistance_20_ohm;
  double per_kelvin = 0.00393;                                             ///< copper, IEC 60028
  double heat_capacity_J_per_K = std::numeric_limits<double>::infinity();  ///< of the wire
  double cooling_W_per_K = 0;
  double around_degC = 20;
};

struct StrokeSetup {
  Mover mover;
  Drive drive;
  WindingBody winding;
  /// Where the mover meets a stop; the run ends there [m]. Default: the ends of the table.
  std::optional<double> stop_low = {}, stop_high = {};
};

/// All that the future depends on.
struct StrokeState {
  double time_s = 0;
  double displacement = 0;   ///< [m]
  double speed_m_per_s = 0;  ///< along +z
  double linkage_Wb = 0;
  double capacitor_V = 0;
  double winding_degC = 20;
};

/// A state and what follows from it.
struct StrokePoint {
  StrokeState state;
  double current_A;
  double force_N;    ///< of the field on the mover
  double voltage_V;  ///< across the winding, R i + d(linkage)/dt
};

/// Where the energy of a run went [J], each integrated along with the motion.
struct EnergyAccount {
  double delivered = 0;  ///< by supply or capacitor: integral of u i
  double heat = 0;       ///< integral of (R + ohm) i^2 + drop i
  double work = 0;       ///< integral of F v, by the field on the mover
  double stored = 0;     ///< change of linkage i - W', the energy of the field
  double damped = 0;     ///< of the work: integral of damping v^2
  double gap() const { return delivered - heat - work - stored; }  ///< 0 but for the steps' errors
};

enum class StrokeEnd {
  time_over,
  stop_low,
  stop_high,
  asked,       ///< one of ends_when crossed 0
  no_current,  ///< no current has this linkage: the incremental inductance of W' is not positive
  step_too_small
};

struct StrokeOptions {
  double until_s;                   ///< > start's time
  double relative_error = 1e-10;    ///< of a step, for every entry of the state
  double most_part_of_time = 1e-2;  ///< a step is no longer than this part of the run
  std::vector<std::function<double(const StrokePoint&)>> ends_when = {};
};

struct StrokeRun {
  std::vector<StrokePoint> points;  ///< start, every step, end
  EnergyAccount energy;
  StrokeEnd end;
  std::size_t which = 0;    ///< of ends_when, when asked
  bool left_table = false;  ///< somewhere the current lay beyond the table: W' was continued there
};

/// The current that gives a linkage at a displacement: Newton with halved steps. Nothing when the incremental
/// inductance on the way is not positive. @param near  where to start [A]
std::optional<double> current_for(const CoenergyFunction& function, double displacement, double linkage_Wb,
                                  double near);

/// Integrates circuit and motion by Dormand and Prince's pair of orders 5 and 4 with dense output
/// (Boost.Odeint; Hairer, Norsett, Wanner, Solving Ordinary Differential Equations I, section II.5). Ends are
/// found on the dense output by bisection-like root finding (Boost.Math, TOMS 748), to 1e-13 of the run's
/// length. Every step is looked at in 8 parts; what crosses 0 twice within one part is not seen. Statics
/// only: no eddy currents, no hysteresis.
/// @throws std::invalid_argument  a mass, heat capacity or capacitor not above 0, a start beyond the stops,
///                                a time that does not advance
StrokeRun simulate_stroke(const CoenergyFunction& function, const StrokeSetup& setup,
                          const StrokeState& start, const StrokeOptions& options);

}  // namespace coilpull
