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

/// The same with the force by table.approximations[which] dashed over it.
CurvesPicture approximation_picture(const ForceTable& table, const Device& device, std::size_t which);

/// Force by that approximation over force_N. Where force_N is below a twentieth of the table's peak the curve
/// has a hole: a ratio there tells of the zero, not of the formula.
CurvesPicture approximation_ratio_picture(const ForceTable& table, const Device& device, std::size_t which);

/// Force with both bands: narrow, the numerical error bar; wide and pale, the spread of the input. First,
/// middle and last set of currents.
CurvesPicture spread_picture(const ForceTable& table, const Device& device);

/// Flux linkage of one circuit against displacement.
CurvesPicture linkage_picture(const ForceTable& table, const Device& device, std::size_t circuit);

/// Which of `count` sets of currents are drawn: all up to nine, else evenly spread ones, first and last among
/// them.
std::vector<std::size_t> readable_subset(std::size_t count);

}  // namespace coilpull
