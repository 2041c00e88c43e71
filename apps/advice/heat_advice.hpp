// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include <optional>
#include <string>
#include <vector>

#include "apps/advice/drive.hpp"
#include "apps/device_file/read_device_file.hpp"
#include "solver/heat/winding_heat.hpp"

namespace coilpull {

/// What drives the winding: as the file states it, or a current of the table held stiffly.
struct PowerSource {
  StiffSource stiff;                  ///< the supply if it never ran down
  std::optional<RunningDown> actual;  ///< the capacitor that it is
  double lead_ohm = 0;                ///< part of stiff.ohm
  bool assumed = false;               ///< no [supply]: the strongest current of the table
};

/// @param strongest_A  held stiffly when the file states no supply
PowerSource power_source(const DeviceFile& file, double strongest_A);

/// Current once it has risen, the capacitor still full. [A]
double first_current_A(const PowerSource& source, const HeatedWinding& winding, double degC);

/// A limit of temperature and when a jammed mover lets the winding reach it.
struct HeatLimit {
  std::string name;
  double degC;
  double stiff_s;                  ///< the supply held as it is
  std::optional<double> actual_s;  ///< the capacitor; none: it is empty before
  /// Between the end of a pulse and the next, so that no pulse ends above the limit, by surface cooling;
  /// none: a single pulse passes it.
  std::optional<double> rest_s;
};

struct Inductance {
  double displacement;
  Measured apparent_H;                           ///< (linkage(i) - linkage(0)) / i at the full current
  Measured incremental_0_H, incremental_full_H;  ///< d(linkage)/di without and at the full current
  Measured time_constant_s;                      ///< the latter over winding and loop, cold
};

struct HeatAdvice {
  HeatedWinding winding;
  double conductor_m2;  ///< section of the wire
  PowerSource source;
  double start_degC, current_A, watt;
  double table_current_A;  ///< current_A, or the end of the table when that is less: for the inductance
  double pulse_s;
  bool pulse_assumed, class_assumed;
  double pulse_degC;  ///< at the end of a pulse from start_degC, with the actual source
  double pulse_J;
  std::vector<Inductance> inductances;  ///< at the first, middle and last displacement
  std::vector<HeatLimit> limits;
  std::optional<double> strokes_per_s, steady_degC;  ///< steady: none when it runs away
  double cooling_W_per_m2_K;
};

/// Heat of a stroke that starts at this temperature. [J]
double pulse_heat_J(const HeatAdvice& advice, double degC);

/// The part that needs no table: all but table_current_A, inductances and limits, as heat_advice has it.
std::optional<HeatAdvice> pulse_heat(const DeviceFile& file, const std::string& circuit, double strongest_A);

/// Current of a held supply through a winding at the insulation's limit. [A]
double hot_current_A(const HeatAdvice& advice);

/// Nothing when a coil of the circuit has no wire. Coils in series warm as one lump.
std::optional<HeatAdvice> heat_advice(const DeviceFile& file, const DriveTable& drive);

}  // namespace coilpull
