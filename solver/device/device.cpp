// SPDX-License-Identifier: GPL-3.0-or-later
#include "solver/device/device.hpp"

#include <algorithm>

namespace coilpull {

bool is_moving(const Device& device, const std::string& part) {
  return std::find(device.moving.begin(), device.moving.end(), part) != device.moving.end();
}

}  // namespace coilpull
