// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

namespace coilpull {

/// A point of the r-z half plane [m]. The axis of rotation is r = 0.
struct Point {
  double r = 0;
  double z = 0;
};

inline bool operator==(Point a, Point b) { return a.r == b.r && a.z == b.z; }
inline bool operator!=(Point a, Point b) { return !(a == b); }

}  // namespace coilpull
