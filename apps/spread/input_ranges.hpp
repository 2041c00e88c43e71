// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include <string>
#include <vector>

#include "apps/device_file/read_device_file.hpp"

namespace coilpull {

/// One input at both ends of its range, everything else as in the file. Same shapes, same rows.
struct InputRange {
  std::string words;  ///< "remanence of plunger, 1.17 to 1.23 T"
  std::vector<Device> ends;
};

/// Remanence of each magnet, temperature of all, steel of each core, position: those that can vary here.
std::vector<InputRange> input_ranges(const DeviceFile& file);

}  // namespace coilpull
