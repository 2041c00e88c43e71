// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include <filesystem>
#include <string>
#include <vector>

#include "apps/device_file/read_device_file.hpp"
#include "solver/sweep/force_table.hpp"

namespace coilpull {

/// Writes <name> and <name>-metadata.json into the folder, each beside and then renamed, with what it takes
/// to make them again: see csvw_metadata(). Returns the two paths. A folder that went away meanwhile is made
/// again; where it cannot be written to any more, the table goes into a fresh folder among the temporary
/// files, so that hours of solving are not lost to a full disk.
/// @param command  see RunOrigin
/// @throws CannotWrite  also then, and says where the table is
std::vector<std::filesystem::path> write_table(const std::filesystem::path& folder, const std::string& name,
                                               const ForceTable& table, const DeviceFile& file,
                                               const std::vector<std::string>& command);

}  // namespace coilpull
