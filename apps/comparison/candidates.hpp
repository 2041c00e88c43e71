// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include <string>
#include <vector>

#include "apps/device_file/read_device_file.hpp"
#include "apps/output/origin.hpp"

namespace coilpull {

/// One choice to be held against others: a device, or two where a material is only known as a pair of bounds.
struct Candidate {
  std::string name;
  std::vector<Device> devices;       ///< one, or the weak and the strong bound
  std::vector<InputFile> read = {};  ///< files of the materials that the device file does not name
};

/// The device as its file has it, then once more for every change: "sleeve=team 13 steel", "sleeve=none" (air
/// in its place), "all=..." for every core; a pair of bounds by its name is one candidate with two devices;
/// "plunger=n42" for a magnet, at the temperature it has in the file. Shapes stay, so that all can share
/// meshes.
/// @throws BadDevice  no such part, no such material, the word "=" is missing
std::vector<Candidate> candidates_of(const DeviceFile& file, const std::vector<std::string>& changes);

}  // namespace coilpull
