// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include <map>
#include <optional>
#include <string>

#include "apps/device_file/table.hpp"
#include "solver/device/operation.hpp"

namespace coilpull {

/// What a device file says of how the device is used, besides what it is. Empty: the file has no such table.
struct Operation {
  std::optional<Supply> supply = {};
  std::optional<Duty> duty = {};
  std::optional<Mechanics> mechanics = {};
  std::map<std::string, SwitchingSensor> sensors = {};  ///< by name; those that switch
};

/// [supply]  voltage_V, current_limit_A, capacitor_uF, series_resistance_ohm, switch_resistance_ohm,
/// lead_length_mm, lead_diameter_mm, diode_V or clamp_V. @throws BadDevice
std::optional<Supply> read_supply(const Table& root);

/// [duty]  strokes_per_minute, pulse_ms, ambient_degC, thermal_class, bobbin_limit_degC,
/// cooling_W_per_m2_K. @throws BadDevice
std::optional<Duty> read_duty(const Table& root);

/// [mechanics]  mass_g, dry_friction_N, viscous_friction_N_s_per_m, slope_deg, load_N, spring, stops,
/// hold_at_mm. @throws BadDevice
std::optional<Mechanics> read_mechanics(const Table& root);

/// direction, kind, operate_mT, release_mT, place_tolerance_mm, delay_us of a [sensor.<name>]; nothing when
/// it has none of them. @throws BadDevice
std::optional<SwitchingSensor> read_switching(const Table& sensor);

// The same in canonical form; reads back to the same bits.
std::string canonical_operation(const Operation& operation);
std::string canonical_switching(const SwitchingSensor& sensor);

}  // namespace coilpull
