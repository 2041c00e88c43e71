// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include <optional>

#include "apps/device_file/table.hpp"
#include "solver/device/device.hpp"

namespace coilpull {

/// wire = { diameter_mm | awg, insulation = "grade 1" | "grade 2" | "bare", metal = "copper" |
/// "aluminium" } of a coil; without insulation:
/// grade 2.
/// @throws BadDevice
std::optional<RoundWire> read_wire(const Table& coil);

/// Rectangular sections are counted in layers, others only compared by area.
/// @throws BadDevice  when the turns cannot lie in the section even when nested: how many do, and which wire
/// would
void refuse_wire_that_does_not_fit(const Coil& coil, const Table& table);

}  // namespace coilpull
