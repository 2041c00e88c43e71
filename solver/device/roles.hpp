// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include <string>
#include <vector>

#include "solver/device/device.hpp"

namespace coilpull {

/// How a region takes part when the force on a body is taken.
enum class Role {
  carried,  ///< part of the body
  held,     ///< any other part or winding
  free      ///< air
};

/// One role a region name: `body` is carried, air is free, all else is held.
std::vector<Role> roles_for(const std::vector<std::string>& body,
                            const std::vector<std::string>& region_names);

}  // namespace coilpull
