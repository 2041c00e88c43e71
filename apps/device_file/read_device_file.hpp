// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include <filesystem>
#include <map>
#include <string>
#include <string_view>

#include "apps/device_file/bad_device.hpp"
#include "apps/device_file/input_spread.hpp"
#include "apps/device_file/operation.hpp"
#include "apps/device_file/part_words.hpp"
#include "meshing/bad_section.hpp"
#include "solver/device/device.hpp"

namespace coilpull {

/// A device and where its parts stand in the file, for messages about them.
struct DeviceFile {
  Device device;
  std::map<std::string, Place> place_of;  ///< by name of part or sensor: file, line and table of its header
  std::string file_name;                  ///< as the person named it
  std::map<std::string, PartWords> words_of = {};  ///< by name of core or magnet
  InputSpread spread = {};                         ///< how well the input is known
  bool states_spread = false;                      ///< there is a [spread]
  Operation operation = {};                        ///< supply, duty, mechanics and what sensors switch
  std::string text = {};                           ///< as it was read, whatever becomes of the file later
};

/// Reads a device file: TOML text, units and line numbers end here. The device is complete and every
/// number of it is in range; whether parts overlap or touch is seen when they are meshed.
/// @throws BadDevice  with place, fact, what is allowed, what to do
Device read_device_file(const std::filesystem::path& path);
Device read_device_text(std::string_view text, const std::string& file_name,
                        const std::filesystem::path& folder);

/// The same, with the place of every part. folder: where paths to material files start.
/// @throws BadDevice
DeviceFile open_device_file(const std::filesystem::path& path);
DeviceFile open_device_text(std::string_view text, const std::string& file_name,
                            const std::filesystem::path& folder);

/// Trouble between parts in the words of the file:
/// "pusher.toml:8: [core.sleeve] and pusher.toml:12: [coil.drive]: <what the mesher found>".
std::string explain(const BadSection& trouble, const DeviceFile& file);

}  // namespace coilpull
