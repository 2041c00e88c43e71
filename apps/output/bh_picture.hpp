// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include <optional>

#include "apps/output/curves_picture.hpp"
#include "solver/device/device.hpp"

namespace coilpull {

/// B against H of every soft material of the device, the points of its table as dots.
/// Nothing when no core has a curved law.
std::optional<CurvesPicture> bh_picture(const Device& device);

}  // namespace coilpull
