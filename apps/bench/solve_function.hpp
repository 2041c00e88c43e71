// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include <functional>

#include "solver/device/device.hpp"
#include "solver/sweep/force_table.hpp"

namespace coilpull {

/// A sweep of a device like the one of the file, with slopes or without.
using Solve = std::function<ForceTable(const Device&, bool slopes)>;

}  // namespace coilpull
