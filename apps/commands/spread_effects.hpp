// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include <vector>

#include "apps/commands/progress.hpp"
#include "apps/device_file/read_device_file.hpp"
#include "apps/spread/force_spread.hpp"

namespace coilpull {

/// Solves both ends of every input's range on the meshes of the table.
std::vector<InputEffect> effects_of(const DeviceFile& file, const ForceTable& table, int threads,
                                    ProgressStyle style);

}  // namespace coilpull
