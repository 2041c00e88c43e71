// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include <string>
#include <vector>

#include "apps/device_file/read_device_file.hpp"

namespace coilpull {

/// A steel or magnet that came from a file.
struct UsedMaterial {
  std::string part, name, file_name;  ///< the file without its folder
  std::string file_content;           ///< for the hash
};

/// A device that was solved, enough to solve it again.
struct Origin {
  std::string title;                         ///< of the device
  std::string file_name;                     ///< of the device file, without its folder
  std::string file_content;                  ///< for the hash: as it was when it was read
  std::string canonical_text = {};           ///< the device itself, every default written out
  std::vector<UsedMaterial> materials = {};  ///< whose numbers are not in that text
};

/// The device, and its materials, as they were when they were read.
Origin origin_of(const DeviceFile& file);

/// Any other file that was read.
struct InputFile {
  std::string file_name;  ///< without its folder
  std::string sha256;     ///< of its bytes as they were when it was read
};

/// @param path  as the person named it
InputFile input_file(const std::string& path, std::string sha256);
InputFile input_file(const MaterialWords& material);

/// What a run was started with and what it read.
struct RunOrigin {
  /// As typed, verb first, files without their folders, and without what results do not depend on: folder of
  /// the results, threads, how much is told.
  std::vector<std::string> command = {};
  std::vector<Origin> devices = {};
  std::vector<InputFile> files = {};
};

}  // namespace coilpull
