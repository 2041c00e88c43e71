// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include <string>
#include <vector>

#include "solver/device/device.hpp"

namespace coilpull {

/// The device in words: parts with their sizes and materials, how the windings fill, the points asked for.
std::string device_text(const Device& device);

/// What a practitioner would ask about before spending time on the table; empty: nothing.
std::vector<std::string> device_warnings(const Device& device);

/// The same, a line each: "warning: ...".
std::string warning_lines(const Device& device);

}  // namespace coilpull
