// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include <functional>
#include <optional>
#include <vector>

#include "solver/motion/stroke.hpp"
#include "solver/motion/stroke_event.hpp"

namespace coilpull {

/// What opposes the mover besides the field, and where it ends.
struct Travel {
  Mover mover;                ///< held and friction apart: its force_N is weight and load
  double dry_friction_N = 0;  ///< >= 0, against every motion and every start (Coulomb)
  std::optional<double> stop_low = {}, stop_high = {};  ///< [m]; default: the ends of the table
  /// Speed after a stop over speed before, 0 to 1. Nothing: the run ends there, the mover leaves.
  std::optional<double> restitution = {};
  double rest_m_per_s = 1e-3;  ///< slower than this it does not rebound
};

/// The feed of every stage, its switch, and what takes the current over when the switch opens.
struct Feed {
  double volt;                             ///< > 0; a bank's own voltage is in the start's state
  std::optional<double> capacitor_F = {};  ///< one bank for all stages; at 0 V every stage is cut off
  std::optional<double> limit_A = {};      ///< > 0: the feed lowers its voltage to give no more
  double ohm = 0;                          ///< of feed, closed switch and leads, of each stage
  double takes_over_V = 0;                 ///< forward voltage of a diode, or that of a clamp
  bool both_ways = false;  ///< a clamp also conducts against the feed's direction, a diode does not
  /// The current dies away into the feed, against its voltage and takes_over_V: energy return.
  bool returns = false;
  double bank_ohm = 0;  ///< in series with the bank, shared
};

enum class Switching { on, reversed, off };

/// What the switch is told and what by; one of these is stated. After that, the delay.
struct SwitchOrder {
  Switching to;
  std::optional<double> at_time_s = {};
  std::optional<double> at_displacement = {};  ///< as the stage sees it, passed in either direction [m]
  double delay_s = 0;
  std::optional<double> after_s = {};  ///< the last order of this stage has acted; the first: the start
  /// Acts as soon as it is 0 or more: a sensor's field less its threshold. Of the displacement as the stage
  /// sees it and of its current.
  std::function<double(double displacement, double current_A)> level = {};
};

/// One of equal stages.
struct SwitchedStage {
  Switching first = Switching::on;
  std::vector<SwitchOrder> orders = {};  ///< one after the other: the next waits until the last has acted
  double place = 0;                      ///< it sees the mover at displacement - place [m]
};

struct SwitchedSetup {
  Travel travel;
  Feed feed;
  WindingBody winding;
  std::vector<SwitchedStage> stages = std::vector<SwitchedStage>(1);
  std::optional<double> cut_off_s = {};  ///< safety: all off from there, whatever the orders say
};

/// Where the energy of a stroke went [J].
struct StrokeEnergy {
  double delivered = 0, heat = 0, stored = 0;  ///< as in EnergyAccount
  double kinetic = 0, spring = 0;              ///< changes
  double friction = 0;                         ///< dry and viscous
  double impacts = 0;                          ///< lost at the stops
  double lifted = 0;                           ///< against weight and load
  std::vector<StageEnergy> stages = {};
  double gap() const { return delivered - heat - stored - kinetic - spring - friction - impacts - lifted; }
};

enum class SwitchedEnd { time_over, left_low, left_high, no_current, step_too_small, too_many_events };

struct SwitchedRun {
  std::vector<StrokePoint> points;
  std::vector<StrokeEventAt> events;
  StrokeEnergy energy;
  SwitchedEnd end = SwitchedEnd::time_over;
  bool left_table = false;
};

/// At rest, the bank charged, windings as warm as what is around them; a magnet brings linkage.
StrokeState start_without_current(const CoenergyFunction& function, const SwitchedSetup& setup,
                                  double displacement);

/// A stroke as simulate_stroke integrates it, piece by piece: a piece lasts as long as the switch, the
/// direction of the friction and what conducts stay as they are, and its end is a root on the dense output.
/// While the mover sticks the circuit goes on. An open circuit has current 0 and shows the motion's voltage.
/// Orders of one stage wait for each other, stages do not.
/// @param start  its linkages set its currents, also where a magnet brings linkage without one
/// @throws std::invalid_argument  as simulate_stroke, and for an order without just one trigger, a negative
///                                friction, a restitution beyond 0 to 1
SwitchedRun simulate_switched_stroke(const CoenergyFunction& function, const SwitchedSetup& setup,
                                     const StrokeState& start, const StrokeOptions& options);

}  // namespace coilpull
