// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include <functional>
#include <string>

#include "apps/advice/drive.hpp"
#include "apps/device_file/read_device_file.hpp"

namespace coilpull {

/// How far a sensor's field is beyond its typical threshold, as a stage sees mover and current: 0 or more
/// where it switches. [T] Straight lines between the rows of the table, the ends' values beyond them.
struct SensorLevel {
  std::function<double(double displacement, double current_A)> over;
  double delay_s;
};

/// What its sheet says. @throws BadDevice  no such sensor, or one without kind and thresholds
const SwitchingSensor& switching_sensor(const DeviceFile& file, const std::string& name);
/// What to do about that.
std::string switching_sensor_advice(const DeviceFile& file, const std::string& name);

/// @param operates  else: it lets go
/// @throws BadDevice  as switching_sensor
SensorLevel sensor_level(const DeviceFile& file, const std::string& name, const ForceTable& table,
                         const DriveTable& drive, bool operates);

}  // namespace coilpull
