// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include <string>

#include "apps/output/canvas.hpp"

namespace coilpull {

/// A PNG file of at most 256 colours, a third or a quarter of one with all of them. Of all colours a box is
/// made, and the box whose red, green or blue reaches farthest is halved there until there are 256, or each
/// holds one colour. Shown is the most frequent colour of each box: paper, lines and letters stay as they
/// are.
/// @throws std::runtime_error  no memory
std::string small_png(const Pixels& picture);

}  // namespace coilpull
