// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include "meshing/outline.hpp"

namespace coilpull::detail {

// Straight and arc edges under one set of questions. t runs from 0 at edge.from to 1 at edge.to.

double radius(const Edge& arc);  ///< mean of the distances of both ends from the centre [m]
double sweep(
    const Edge& edge);  ///< signed angle from -> to, ]-pi, pi], within 1e-9 of half a turn: +pi; straight: 0
double length(const Edge& edge);        ///< along the edge [m]
double segment_area(const Edge& edge);  ///< between chord and arc, > 0 right of the chord; straight: 0 [m^2]
Point point_at(const Edge& edge, double t);  ///< the ends are returned to the last bit
double parameter_of(const Edge& edge,
                    Point at);  ///< of the point on the whole line or circle in the same direction
Box box_of(const Edge& edge);

struct Nearest {
  double distance;  ///< [m]
  Point at;         ///< on the first edge
};
Nearest nearest(const Edge& edge, Point to);
Nearest nearest(const Edge& edge, const Edge& to);  ///< distance is exactly 0 where they cross

bool boxes_apart(const Box& a, const Box& b, double by);  ///< a gap of more than `by` lies between them

}  // namespace coilpull::detail
