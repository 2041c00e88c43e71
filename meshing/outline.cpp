// SPDX-License-Identifier: GPL-3.0-or-later
#include "meshing/outline.hpp"

#include <algorithm>
#include <cmath>
#include <limits>

#include "meshing/detail/edge_geometry.hpp"
#include "meshing/detail/plane.hpp"

namespace coilpull {

using namespace detail;

Outline rectangle(double r_from, double r_to, double z_from, double z_to) {
  const Point a{r_from, z_from}, b{r_to, z_from}, c{r_to, z_to}, d{r_from, z_to};
  return {{{a, b}, {b, c}, {c, d}, {d, a}}};
}

Outline moved(const Outline& outline, double dz) {
  Outline result = outline;
  for (Edge& edge : result.edges) {
    edge.from.z += dz;
    edge.to.z += dz;
    if (edge.centre) edge.centre->z += dz;
  }
  return result;
}

double area(const Outline& outline) {
  // Green: 1/2 of the sum of from x to about one corner, plus what lies between chords and arcs.
  double sum = 0;
  for (const Edge& edge : outline.edges) {
    const Point origin = outline.edges.front().from;
    sum += cross(edge.from - origin, edge.to - origin) / 2 + segment_area(edge);
  }
  return sum;
}

double volume(const Outline& outline) {
  // Pappus and Guldin with Green: 2 pi int r dA = pi oint r^2 dz over the chords, plus 2 pi int r dA between
  // chord and arc: area * centre.r + (first moment about the centre = chord^3 / 12, along the bisector).
  double sum = 0;
  for (const Edge& edge : outline.edges) {
    const double a = edge.from.r, b = edge.to.r;
    sum += pi * (edge.to.z - edge.from.z) * (a * a + a * b + b * b) / 3;
    if (!edge.centre) continue;
    const double chord = norm(edge.to - edge.from);
    const double outward_r = (point_at(edge, 0.5).r - edge.centre->r) / radius(edge);
    const double moment = std::copysign(chord * chord * chord / 12, sweep(edge)) * outward_r;
    sum += 2 * pi * (segment_area(edge) * edge.centre->r + moment);
  }
  return sum;
}

Box bounding_box(const Outline& outline) {
  const double far = std::numeric_limits<double>::infinity();
  Box box = {far, -far, far, -far};
  for (const Edge& edge : outline.edges) {
    const Box one = box_of(edge);
    box = {std::min(box.r_from, one.r_from), std::max(box.r_to, one.r_to), std::min(box.z_from, one.z_from),
           std::max(box.z_to, one.z_to)};
  }
  return box;
}

double distance(const Outline& a, const Outline& b) {
  double least = std::numeric_limits<double>::infinity();
  for (const Edge& of_a : a.edges)
    for (const Edge& of_b : b.edges)
      if (!boxes_apart(box_of(of_a), box_of(of_b), least))
        least = std::min(least, nearest(of_a, of_b).distance);
  return least;
}

double distance(const Edge& edge, Point to) { return nearest(edge, to).distance; }

}  // namespace coilpull
