// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include <functional>
#include <vector>

#include "apps/advice/holding_advice.hpp"
#include "apps/advice/sensor_advice.hpp"
#include "apps/device_file/read_device_file.hpp"

namespace coilpull {

/// Solves a change of the device on given meshes (empty: on meshes of its own).
using SolveChange = std::function<ForceTable(const Device&, const std::vector<MeshOrigin>&)>;

/// Stated residual gaps on meshes of their own: currents over the whole range of the table, and without
/// current the cores left magnetised either way.
HoldingAdvice holding_advice(const DeviceFile& file, const DriveTable& drive, const SolveChange& solve);

/// One sensor and copies of it, without current and with the strongest of either sense, on the table's
/// meshes.
/// @param table  of the whole device
SensorAdvice sensor_advice(const DeviceFile& file, const Sensor& sensor, const DriveTable& drive,
                           const ForceTable& table, const SolveChange& solve);

}  // namespace coilpull
