// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include <filesystem>
#include <string>
#include <vector>

#include "apps/device_file/read_device_file.hpp"
#include "apps/input/force_table_file.hpp"
#include "apps/output/origin.hpp"

namespace coilpull {

/// What coilpull table left in a folder.
struct ResultFolder {
  std::filesystem::path path;
  DeviceFile device;                  ///< device.toml: the one that was solved, every default written out
  ForceTableFile table;               ///< force_table.csv
  std::string summary;                ///< summary.txt: what the screen said
  std::string made_by;                ///< "coilpull 0.1.0"
  std::string input;                  ///< name of the device file and its hash
  int order = 4;                      ///< polynomial order of the published values
  std::vector<InputFile> files = {};  ///< the other files of the folder that were read
};

/// @throws BadCsv, BadDevice  a file is missing or bad: with its name and what to do
ResultFolder open_result_folder(const std::filesystem::path& folder);

}  // namespace coilpull
