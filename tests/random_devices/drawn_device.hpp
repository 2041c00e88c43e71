// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include <array>
#include <string>

namespace coilpull {

/// What a drawn device has; the shares of each are printed by try_devices.
enum class Trait {
  arcs,
  touching,
  sliver,  ///< a wall thinner than a hundredth of the device
  moving_steel,
  slanted,   ///< Br at an angle
  hair_gap,  ///< moving to fixed below 1e-3 of the device
  strong,    ///< ampere-turns for well over 2.5 T
  tiny,      ///< 0.1 to 1 mm
  huge,      ///< 1 to 10 m
  no_current,
  enormous_current,
  nearly_valid,  ///< one thing in it is wrong, or right by a hair
  count
};

const char* word_for(Trait trait);

/// A device file drawn at random: one magnet or plunger, a coil, one to four pieces of steel.
struct DrawnDevice {
  std::string toml;
  std::array<bool, static_cast<std::size_t>(Trait::count)> has = {};
  bool is(Trait trait) const { return has[static_cast<std::size_t>(trait)]; }
};

/// The same seed gives the same text on every machine.
DrawnDevice drawn_device(unsigned seed);

}  // namespace coilpull
