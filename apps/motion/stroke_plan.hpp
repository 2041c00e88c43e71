// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include <optional>
#include <string>
#include <vector>

#include "apps/advice/heat_advice.hpp"
#include "apps/device_file/read_device_file.hpp"
#include "apps/motion/stroke_choice.hpp"
#include "solver/motion/switched_stroke.hpp"

namespace coilpull {

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

/// @throws BadDevice  no advice on heat: a coil of the circuit has no wire
const HeatAdvice& heat_of_stroke(const DeviceFile& file, const DriveTable& drive,
                                 const std::optional<HeatAdvice>& heat);

/// The plain choice is that of statics: from the end of the stroke nearer to the start on, the window of most
/// work of switching_advice, at most the supply's first current. With a sensor the stage is switched on as it
/// operates and off as it lets go, typical thresholds, after its delay.
/// @param heat  resistance and supply: without a wire there is no stroke
/// @param file  without a stroke_fault
/// @throws BadDevice  no current 0 within the table, stops beyond it, no current that helps
StrokePlan plan_stroke(const DeviceFile& file, const ForceTable& table, const DriveTable& drive,
                       const HeatAdvice& heat, const StrokeChoice& choice);

/// The same plan with each stage switched on and off earlier by these leads (against the motion), at another
/// pitch. [m]
StrokePlan with_leads(const StrokePlan& plan, const CoenergyFunction& function, double on_lead,
                      double off_lead, double pitch);

}  // namespace coilpull
