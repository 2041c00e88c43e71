// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include <string>

#include "meshing/section.hpp"

namespace coilpull::detail {

inline constexpr int boundary = -1;  ///< in the place of a part's index: the axis and the half circle

std::string mm(double length);  ///< "0.2 mm"
std::string place(Point at);    ///< "r = 7.6 mm, z = -3 mm"
std::string name_of(const Section& section, int part);

/// Their outlines cross at this point (part == other: one outline with itself). The amount is how far one
/// must be shifted for their boxes to part: exact for rectangles, else the most it can be.
[[noreturn]] void throw_crossing(const Section& section, int part, int other, Point at);

/// No edges cross, yet both own the same area: one lies inside the other, or they share edges from the same
/// side.
[[noreturn]] void throw_overlap(const Section& section, int part, int other, Point at);

/// Too near to mesh the gap, too far to be one line.
[[noreturn]] void throw_near_touch(const Section& section, int part, int other, Point at, double gap);

}  // namespace coilpull::detail
