// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include <cstddef>
#include <vector>

#include "apps/output/curves_picture.hpp"
#include "solver/device/device.hpp"
#include "solver/sweep/force_table.hpp"

namespace coilpull {

/// Force against displacement, a curve a set of currents, changes of sign marked.
CurvesPicture force_picture(const ForceTable& table, const Device& device);

/// Flux linkage of one circuit against displacement.
CurvesPicture linkage_picture(const ForceTable& table, const Device& device, std::size_t circuit);

/// Which of `count` sets of currents are drawn: all up to nine, else evenly spread ones, first and last among
/// them.
std::vector<std::size_t> readable_subset(std::size_t count);

}  // namespace coilpull
