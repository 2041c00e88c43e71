// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include <vector>

#include "solver/device/device.hpp"
#include "solver/field/field.hpp"
#include "solver/measure/measurement.hpp"
#include "solver/measure/volume_samples.hpp"

namespace coilpull {

/// How far each magnet of the device is driven.
/// @param in_magnets  samples of each magnet's region, in the order of the device
std::vector<MagnetState> magnet_states(const Device& device, const std::vector<VolumeSampler>& in_magnets,
                                       const Field& field);

}  // namespace coilpull
