// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include <filesystem>
#include <string>
#include <vector>

namespace coilpull {

/// The folder that the person chose, or <file stem>_out in the current folder. Made and tried.
/// @throws CannotWrite
std::filesystem::path results_folder(const std::filesystem::path& device_file,
                                     const std::filesystem::path& chosen);

/// "Written: a\n         b\n" for the screen; of a picture only the PNG, with a word on its twin.
std::string written_text(const std::vector<std::filesystem::path>& files);

}  // namespace coilpull
