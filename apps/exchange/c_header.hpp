// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include <string>

#include "apps/exchange/coenergy_table.hpp"

namespace coilpull {

enum class CNumbers {
  floating,  ///< float: metres, amperes, newtons, webers
  fixed      ///< int32_t: micrometres, milliamperes, millinewtons, microwebers; no floating point at all
};

/// A header of C99 for firmware: both axes, force and flux linkage, and a look-up for each along straight
/// lines between the points. Outside the table the nearest edge is used, and a function tells whether that is
/// so.
/// @param name  [a-z0-9_], starts with a letter: in front of everything the header defines
/// @throws std::invalid_argument  with fixed numbers: two places that are one in micrometres or milliamperes,
/// or a value
///                                that int32_t does not hold
std::string c_header(const SampledTable& table, const std::string& name, CNumbers numbers);

}  // namespace coilpull
