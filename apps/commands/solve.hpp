// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include "apps/commands/exit_code.hpp"
#include "apps/commands/progress.hpp"
#include "apps/device_file/read_device_file.hpp"
#include "solver/sweep/force_table.hpp"

namespace coilpull {

/// The sweep as the program runs it: progress on standard error, Ctrl-C and SIGTERM stop it between points.
/// threads = 0: as many as the machine has cores.
/// @throws BadDevice  when parts overlap or come too close, in the words of the device file
ForceTable solve(const DeviceFile& file, int threads, ProgressStyle style);

/// 130 when the run was stopped, else 3 when some row is not `ok`, else 0.
ExitCode exit_code_for(const ForceTable& table);

}  // namespace coilpull
