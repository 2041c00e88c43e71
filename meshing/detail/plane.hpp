// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include <algorithm>
#include <cmath>

#include "meshing/point.hpp"

namespace coilpull::detail {

inline constexpr double pi = 3.14159265358979323846;

// Points of the r-z plane as vectors; cross > 0: b lies counter-clockwise of a.
inline Point operator+(Point a, Point b) { return {a.r + b.r, a.z + b.z}; }
inline Point operator-(Point a, Point b) { return {a.r - b.r, a.z - b.z}; }
inline Point operator*(double s, Point a) { return {s * a.r, s * a.z}; }
inline double dot(Point a, Point b) { return a.r * b.r + a.z * b.z; }
inline double cross(Point a, Point b) { return a.r * b.z - a.z * b.r; }
inline double norm(Point a) { return std::hypot(a.r, a.z); }
inline Point left_of(Point a) { return {-a.z, a.r}; }  ///< turned a quarter counter-clockwise

/// The point of the segment a-b that is nearest to p.
inline Point on_segment(Point a, Point b, Point p) {
  const Point along = b - a;
  const double square = dot(along, along);
  const double t = square > 0 ? std::clamp(dot(p - a, along) / square, 0.0, 1.0) : 0.0;
  return a + t * along;
}

/// Distance of p from the segment a-b [m].
inline double to_segment(Point a, Point b, Point p) { return norm(p - on_segment(a, b, p)); }

}  // namespace coilpull::detail
