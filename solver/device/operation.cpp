// SPDX-License-Identifier: GPL-3.0-or-later
#include "solver/device/operation.hpp"

#include <cmath>

#include "materials/constants.hpp"

namespace coilpull {

double push_from_outside(const Mechanics& mechanics, double displacement) {
  double push = mechanics.load;
  if (mechanics.mass) push -= *mechanics.mass * standard_gravity * std::sin(mechanics.slope_deg / 180 * pi);
  if (mechanics.spring) push -= mechanics.spring->rate * (displacement - mechanics.spring->free_at);
  return push;
}

}  // namespace coilpull
