// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include <cstddef>
#include <vector>

#include "solver/device/device.hpp"

namespace coilpull {

/// The coils where they stand at the first displacement, cores and magnets taken away; 1 A in each circuit in
/// turn.
Device coils_alone(const Device& device);

/// One magnet in air with sensors on the axis before and behind it, two for each distance [m]: behind,
/// before.
Device magnet_alone(const Device& device, std::size_t magnet, const std::vector<double>& distances);

/// The device at these displacements with all currents 0 and, where the file has any, at its strongest set.
Device on_the_scale(const Device& device, const std::vector<double>& displacements);

/// The set of currents with the largest sum of squares; of equals the one with the largest sum.
std::vector<double> strongest_currents(const Device& device);

}  // namespace coilpull
