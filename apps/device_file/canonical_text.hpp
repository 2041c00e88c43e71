// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include <string>

#include "apps/device_file/read_device_file.hpp"

namespace coilpull {

/// The one device file that says what this file says: millimetres, radii, from and to, every default written
/// out, lists for ranges, no comments. A plain cylinder or tube stays one, any other shape becomes the
/// profile that was read from it. Reading it gives the same Device to the last bit, and the same text again.
/// A material file stays named by its path, which starts in the folder of the device file.
std::string canonical_text(const DeviceFile& file);

/// "tube = { ... }", "cylinder = { ... }" or "profile = [ ... ]"
std::string canonical_shape(const Outline& outline);

}  // namespace coilpull
