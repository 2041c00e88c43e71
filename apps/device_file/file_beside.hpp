// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include <filesystem>
#include <string>

#include "apps/device_file/table.hpp"

namespace coilpull {

/// A TOML file that another one names. Such files are data and may come from elsewhere: a path in one leads
/// to files beside it, below and in the folder above, links followed, and to no others.
/// @param folder  of the file in which the name stands; empty: the working folder
/// @param wanted, reader  for the words: "material file", "device file"
/// @throws BadDevice  not a .toml, not there, or outside
std::filesystem::path file_beside(const Value& name, const std::filesystem::path& folder,
                                  const std::string& wanted, const std::string& reader);

}  // namespace coilpull
