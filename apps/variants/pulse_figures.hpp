// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include "apps/device_file/read_device_file.hpp"
#include "apps/variants/figures.hpp"

namespace coilpull {

/// What the pulses of [duty] do to the windings: pulse_rise_K and steady_degC of the hottest circuit. They
/// hang on how the device is used and need no table. Missing: what [duty] or a wire does not tell, and a
/// temperature that runs away.
Figures pulse_figures(const DeviceFile& file);

}  // namespace coilpull
