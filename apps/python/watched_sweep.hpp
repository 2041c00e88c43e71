// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include <pybind11/pybind11.h>

#include "apps/device_file/read_device_file.hpp"
#include "solver/sweep/sweep.hpp"

namespace coilpull {

/// A sweep in threads of its own while Python stays awake: Ctrl-C ends it as KeyboardInterrupt, and progress
/// is called as progress(rows_done, rows) in the calling thread, some ten times a second.
/// @param progress  None, or a callable; what it raises ends the sweep and is raised here
/// @throws BadDevice  parts that overlap or come too close, in the words of the device file
ForceTable watched_sweep(const DeviceFile& file, SweepOptions options, const pybind11::object& progress);

}  // namespace coilpull
