// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include <string>

#include "apps/device_file/read_device_file.hpp"
#include "apps/variants/variants_file.hpp"

namespace coilpull {

/// Options in a sentence as the keys of [stroke]: "--on-mm" -> "on_mm".
std::string as_stroke_keys(const std::string& sentence);

/// At the key of [stroke] that is wrong, or at what asks for the stroke.
/// @throws BadDevice  the device cannot run it, see stroke_fault
void refuse_without_stroke(const DeviceFile& device, const StrokeWish& wish);

}  // namespace coilpull
