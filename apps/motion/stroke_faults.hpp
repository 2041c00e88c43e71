// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include <optional>
#include <string>

#include "apps/device_file/read_device_file.hpp"
#include "apps/motion/stroke_choice.hpp"

namespace coilpull {

/// Why a device does not run a stroke as it was chosen. Options are named as `coilpull stroke` spells them.
struct StrokeFault {
  std::string option;  ///< "start-mm"; empty: the device, not the choice
  std::string value;   ///< of the option; empty: none to show
  std::string fact;    ///< a sentence, that of an option goes on after its value
  std::string advice;
};

/// A fault in words: "stage.toml: --start-mm 50 lies outside the stroke, ..."
[[noreturn]] void refuse_stroke_for(const DeviceFile& file, const StrokeFault& fault);

/// Where the mover starts when the table reaches from low to high, stops within it; what is wrong with it.
double stroke_start(const DeviceFile& file, double low, double high, const StrokeChoice& choice);
std::optional<StrokeFault> start_fault(const DeviceFile& file, double low, double high,
                                       const StrokeChoice& choice);

/// Length along z of everything that stands. [m]
double standing_length(const Device& device);

/// A table's currents without 0 within or fewer than three; stops beyond its displacements; a coil without
/// wire.
std::optional<StrokeFault> few_currents_fault(const std::string& circuit, std::size_t count, double least_A,
                                              double most_A);
std::optional<StrokeFault> stops_fault(const DeviceFile& file, double from, double to);
StrokeFault no_wire_fault(const std::string& coil);

/// What can be told before anything is solved, of a device with motion: no [supply] voltage, no mass, a start
/// outside the stroke, a sensor that does not switch, a pitch within the standing parts, a table that is too
/// small, a winding without a wire. @param circuit  empty: the first that varies
std::optional<StrokeFault> stroke_fault(const DeviceFile& file, const StrokeChoice& choice,
                                        const std::string& circuit);

/// @throws BadDevice  for any of these, and for a device without motion
void refuse_stroke(const DeviceFile& file, const StrokeChoice& choice, const std::string& circuit = "");

}  // namespace coilpull
