// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include <functional>
#include <optional>
#include <vector>

#include "solver/motion/coenergy_function.hpp"
#include "solver/motion/stroke_setup.hpp"

namespace coilpull {

struct WindingState {
  double linkage_Wb = 0;
  double degC = 20;
};

/// All that the future depends on.
struct StrokeState {
  double time_s = 0;
  double displacement = 0;   ///< [m]
  double speed_m_per_s = 0;  ///< along +z
  double bank_V = 0;
  std::vector<WindingState> windings = std::vector<WindingState>(1);  ///< one a stage
};

/// What follows for the winding of one stage.
struct WindingPoint {
  double current_A;
  double voltage_V;  ///< across the winding, R i + d(linkage)/dt
};

/// A state and what follows from it.
struct StrokePoint {
  StrokeState state;
  double force_N;  ///< of all stages on the mover
  std::vector<WindingPoint> windings;
};

/// What one stage took in [J].
struct StageEnergy {
  double delivered = 0, heat = 0;
};

/// Where the energy of a run went [J], each integrated along with the motion.
struct EnergyAccount {
  double delivered = 0;  ///< by supply or bank: integral of u i
  double heat = 0;       ///< integral of (R + ohm) i^2 + drop i, and of what the bank's resistance takes
  double work = 0;       ///< integral of F v, by the field on the mover
  double stored = 0;     ///< change of linkage i - W', the energy of the field
  double damped = 0;     ///< of the work: integral of damping v^2
  std::vector<StageEnergy> stages = {};
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

/// The current that gives a linkage where a stage sees the mover (stage_field): Newton with halved steps.
/// Nothing when the incremental inductance on the way is not positive. @param near  where to start [A]
std::optional<double> current_for(const CoenergyFunction& function, double displacement, double linkage_Wb,
                                  double near);

/// Integrates the circuits of all stages and the motion by Dormand and Prince's pair of orders 5 and 4 with
/// dense output (Boost.Odeint; Hairer, Norsett, Wanner, Solving Ordinary Differential Equations I, section
/// II.5). Ends are found on the dense output, see first_crossing.hpp, to 1e-13 of the run's length.
/// Statics only: no eddy currents, no hysteresis. Stages add up: what one does to another's steel is left
/// out.
/// @throws std::invalid_argument  a mass, heat capacity or capacitor not above 0, a start beyond the stops,
///                                a time that does not advance, windings of the start unlike the stages
StrokeRun simulate_stroke(const CoenergyFunction& function, const StrokeSetup& setup,
                          const StrokeState& start, const StrokeOptions& options);

}  // namespace coilpull
