// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include <optional>
#include <string>
#include <vector>

#include "apps/advice/heat_advice.hpp"
#include "apps/device_file/read_device_file.hpp"
#include "solver/motion/switched_stroke.hpp"

namespace coilpull {

/// How a stroke is begun and switched, besides what the device file says. Empty: the plain choice, which
/// plan_stroke tells.
struct StrokeChoice {
  std::optional<double> start_mm = {};
  double speed_m_per_s = 0;
  std::string sense = {};  ///< of the current: "plus", "minus"
  std::optional<double> on_mm = {}, off_mm = {}, off_after_ms = {}, reverse_until_mm = {};
  std::string on_by = {}, off_by = {};  ///< sensors that switch
  double delay_us = 0;                  ///< of the switch, on top of a sensor's
  std::optional<double> cut_off_ms = {};
  double until_ms = 200;
  int stages = 1;
  double pitch_mm = 0;  ///< of stages
  bool energy_return = false;
};

/// A stroke ready to be run, and what was assumed for it.
struct StrokePlan {
  SwitchedSetup setup;
  StrokeState start;
  StrokeOptions options;
  int way;                            ///< +1 or -1: along z
  int sense;                          ///< of the current that the stages are switched on with
  std::optional<double> on, off;      ///< displacements as each stage sees them [m]; none: by something else
  double pitch;                       ///< [m], 0 for one stage
  double standing;                    ///< length of all that stands of one stage [m]
  std::string switching;              ///< how it is switched, a sentence
  std::vector<std::string> assumed;   ///< sentences
  std::optional<double> bank_J = {};  ///< in the capacitor at the start
};

/// What can be refused before anything is solved. @throws BadDevice  no [supply] voltage, no mass, nothing
/// that moves, a start outside the stroke, a sensor that does not switch, a pitch within the standing parts
void refuse_stroke(const DeviceFile& file, const StrokeChoice& choice);

/// @throws BadDevice  no advice on heat: a coil of the circuit has no wire
const HeatAdvice& heat_of_stroke(const DeviceFile& file, const DriveTable& drive,
                                 const std::optional<HeatAdvice>& heat);

/// The plain choice is that of statics: from the end of the stroke nearer to the start on, the window of most
/// work of switching_advice, at most the supply's first current. With a sensor the stage is switched on as it
/// operates and off as it lets go, typical thresholds, after its delay.
/// @param heat  resistance and supply: without a wire there is no stroke
/// @param file  that refuse_stroke lets pass
/// @throws BadDevice  no current 0 within the table, stops beyond it, no current that helps
StrokePlan plan_stroke(const DeviceFile& file, const ForceTable& table, const DriveTable& drive,
                       const HeatAdvice& heat, const StrokeChoice& choice);

/// The same plan with each stage switched on and off earlier by these leads (against the motion), at another
/// pitch. [m]
StrokePlan with_leads(const StrokePlan& plan, const CoenergyFunction& function, double on_lead,
                      double off_lead, double pitch);

}  // namespace coilpull
