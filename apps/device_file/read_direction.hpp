// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include <string>

#include "apps/device_file/table.hpp"

namespace coilpull {

/// In the r-z half plane, exact along the axes.
struct Direction {
  double r, z;           ///< a unit vector
  double angle_deg = 0;  ///< from +z towards +r, -180 to 180; 0 along z or r
};

/// Exact along the axis and across it: cos(90 deg) is 0 here.
Direction direction_at(double angle_deg);

/// "+z", "-z", "+r", "-r" or { angle_deg = 30 }. @throws BadDevice
Direction read_direction(const Value& value, const SourceText& source);

std::string as_toml(const Direction& direction);  ///< reads back as the same

}  // namespace coilpull
