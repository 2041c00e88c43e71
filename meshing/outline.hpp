// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include <optional>
#include <vector>

#include "meshing/point.hpp"

namespace coilpull {

/// A piece of an outline: straight, or an arc of a circle of at most half a turn.
struct Edge {
  Point from;
  Point to;
  std::optional<Point> centre = {};  ///< set: the shorter arc from -> to about this point
                                     ///< (half a turn: the one that runs counter-clockwise)
};

/// One closed loop of edges around one part's r-z section, counter-clockwise (r to the right, z up).
/// Each edge starts where the one before it ends, to the last bit.
struct Outline {
  std::vector<Edge> edges;
};

struct Box {
  double r_from, r_to, z_from, z_to;
};  ///< [m]

Outline rectangle(double r_from, double r_to, double z_from,
                  double z_to);                    ///< [m], r_from = 0: a solid cylinder
Outline moved(const Outline& outline, double dz);  ///< shifted by dz along z [m]

double area(const Outline& outline);                  ///< exact, arcs included [m^2]
double volume(const Outline& outline);                ///< of the body of revolution, exact [m^3]
Box bounding_box(const Outline& outline);             ///< arcs included
double distance(const Outline& a, const Outline& b);  ///< smallest distance between the two boundaries [m]
double distance(const Edge& edge, Point to);          ///< smallest distance of the edge from a point [m]

}  // namespace coilpull
