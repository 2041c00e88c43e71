// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include <filesystem>
#include <string>
#include <vector>

#include "solver/sweep/force_table.hpp"

namespace coilpull {

/// Writes <name> and <name>-metadata.json into the folder, each beside and then renamed, with the hash of the
/// device file they come from. Returns the two paths.
/// @throws CannotWrite
std::vector<std::filesystem::path> write_table(const std::filesystem::path& folder, const std::string& name,
                                               const ForceTable& table,
                                               const std::filesystem::path& device_file,
                                               const std::string& title);

}  // namespace coilpull
