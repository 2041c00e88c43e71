// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include <filesystem>

#include "apps/commands/exit_code.hpp"

namespace coilpull {

/// Reads the device file, tells what is in it, whether the windings fit and whether the parts clear each
/// other over the whole stroke. Nothing is meshed or solved.
/// @throws BadDevice
ExitCode run_check(const std::filesystem::path& device_file);

}  // namespace coilpull
