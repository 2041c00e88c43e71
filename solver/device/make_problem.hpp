// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include <string>
#include <vector>

#include "solver/device/device.hpp"
#include "solver/fem/problem.hpp"

namespace coilpull {

/// Laws and windings of a device for a mesh with these region names. Displacement and current do not enter.
/// @throws std::invalid_argument  a region that is neither a part of the device nor air
Problem make_problem(const Device& device, const std::vector<std::string>& region_names);

/// Blending length r0 of the unknown: a third of the smallest outer radius of a core or magnet (of a coil
/// when there is neither), but not below a three-hundredth of the device, where quadrature at the axis would
/// cost too much.
double blending_length(const Device& device);

}  // namespace coilpull
