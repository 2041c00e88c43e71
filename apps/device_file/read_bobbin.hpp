// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include "apps/device_file/table.hpp"
#include "solver/device/device.hpp"

namespace coilpull {

/// bobbin = { wall_mm, flange_mm, clearance_mm, layer_film_mm }, each 0 when left out: the coil is then drawn
/// with its bobbin, and its outline shrinks to what the turns have. Nothing happens without the key.
/// @throws BadDevice  when the drawn space is no rectangle, or the bobbin leaves nothing of it
void read_bobbin(const Table& coil_table, Coil& coil);

/// packing = "rows" | "nested", how the turns are held against the space; nested when left out. @throws
/// BadDevice
Packing read_packing(const Table& coil_table);

/// temperature_degC of the winding, 20 when left out; -100 to 250. @throws BadDevice
double read_winding_temperature(const Table& coil_table);

}  // namespace coilpull
