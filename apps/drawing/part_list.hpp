// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include <optional>
#include <string>
#include <vector>

#include "solver/device/device.hpp"

namespace coilpull {

/// A line of the list of parts: what to make or to buy.
struct PartLine {
  std::string name, what, material, size;
};

/// Cores, magnets, then for each coil its bobbin, where the file has one, and its wire with `spare` added to
/// its length. @param spare  a fraction, 0.05 for 5 %
std::vector<PartLine> part_list(const Device& device, double spare);

/// A coil's bobbin as a body of revolution: wall and flanges inside the drawn space. Nothing without a
/// bobbin, or when it has no wall.
std::optional<Outline> bobbin_outline(const Coil& coil);

}  // namespace coilpull
