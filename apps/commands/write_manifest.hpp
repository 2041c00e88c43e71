// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include <filesystem>
#include <string>
#include <vector>

#include "apps/output/origin.hpp"

namespace coilpull {

/// Writes <name>-metadata.json into the folder, with what it takes to make the results again: see manifest().
/// Adds its path to those of the results, which lie in the folder or below and have been written.
/// @throws CannotWrite
void write_manifest(const std::filesystem::path& folder, const std::string& name, const RunOrigin& run,
                    std::vector<std::filesystem::path>& results);

}  // namespace coilpull
