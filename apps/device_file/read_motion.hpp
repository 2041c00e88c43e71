// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include <string>
#include <vector>

#include "apps/device_file/table.hpp"
#include "solver/device/device.hpp"

namespace coilpull {

std::vector<std::string> part_names(const Device& device);  ///< cores, coils, magnets

/// [motion] of a device whose parts are known: moving, displacements. Without the table nothing moves and
/// the one displacement is 0; without displacements the moving parts stay where they are drawn.
/// @throws BadDevice
void read_motion(const Table& root, Device& device);

}  // namespace coilpull
