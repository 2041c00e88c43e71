// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include "solver/device/device.hpp"

namespace coilpull {

/// A device drawn at random, valid by construction, and what it was meant to show.
struct RandomDevice {
  Device device;  ///< one displacement, a few currents
  bool moving_steel;
  bool touching;  ///< two parts share an edge
  bool hair_gap;  ///< moving to fixed closer than 1e-3 of the device
  bool strong;    ///< ampere-turns for well over 2.5 T in the steel
};

/// The same seed gives the same device on every machine (own arithmetic on std::mt19937_64, no
/// distributions).
RandomDevice random_device(unsigned seed);

}  // namespace coilpull
