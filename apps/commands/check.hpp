// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include <filesystem>
#include <string>
#include <vector>

#include "apps/commands/exit_code.hpp"
#include "apps/output/section_view.hpp"

namespace coilpull {

/// Reads the device file, tells what is in it, whether the windings fit and whether the parts clear each
/// other over the whole stroke. Nothing is meshed or solved.
/// @throws BadDevice, CannotWrite
/// @param picture_folder  where device.png and .svg are written; empty: nothing is
/// @param command  see RunOrigin
ExitCode run_check(const std::filesystem::path& device_file, const std::filesystem::path& picture_folder = {},
                   Halves halves = Halves::both, const std::vector<std::string>& command = {});

/// The same checks; prints the file's canonical text and nothing else, so that it can be kept or compared.
/// @throws BadDevice
ExitCode run_check_canonical(const std::filesystem::path& device_file);

}  // namespace coilpull
