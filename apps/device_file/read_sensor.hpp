// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include <string>

#include "apps/device_file/table.hpp"
#include "solver/device/device.hpp"

namespace coilpull {

/// r, z, face_radius and moves_with of a [sensor.<name>]; moving parts are those of `device`. Other keys are
/// left unread. @throws BadDevice
Sensor read_sensor(const std::string& name, const Table& table, const Device& device);

}  // namespace coilpull
