// SPDX-License-Identifier: GPL-3.0-or-later
#include <cmath>
#include <set>

#include "meshing/bad_section.hpp"
#include "meshing/check_section.hpp"
#include "meshing/detail/arrangement.hpp"
#include "meshing/detail/edge_geometry.hpp"
#include "meshing/detail/plane.hpp"

namespace coilpull::detail {
namespace {

bool finite(Point p) { return std::isfinite(p.r) && std::isfinite(p.z); }

[[noreturn]] void refuse(const Region& part, const std::string& fact) {
  throw BadSection(part.name, "", part.name + fact);
}

void check_edge(const Region& part, const Edge& edge, const HalfCircle& outer) {
  if (!finite(edge.from) || !finite(edge.to) || (edge.centre && !finite(*edge.centre)))
    refuse(part, " has a coordinate that is not a finite number");
  const double same = coincident * outer.radius, thin = thinnest * outer.radius;
  const Box box = box_of(edge);
  if (box.r_from < -same)
    refuse(part, " reaches " + mm(-box.r_from) + " beyond the axis, at " +
                     place({box.r_from, (box.z_from + box.z_to) / 2}) + "; r must be 0 or more");
  if (norm(edge.to - edge.from) < thin)
    refuse(part, " has an edge of length " + mm(norm(edge.to - edge.from)) + " at " + place(edge.from) +
                     "; an edge needs at least " + mm(thin));
  if (!edge.centre) return;
  const double mismatch = std::abs(norm(edge.from - *edge.centre) - norm(edge.to - *edge.centre));
  if (mismatch > 1e-10 * outer.radius)
    refuse(part, " has an arc at " + place(edge.from) + " whose ends differ by " + mm(mismatch) +
                     " in their distance from its centre");
}

void check_closed(const Region& part) {
  const std::vector<Edge>& edges = part.outline.edges;
  if (edges.size() < 2) refuse(part, " has an outline of fewer than two edges");
  for (std::size_t i = 0; i < edges.size(); ++i) {
    const Point end = edges[i].to, start = edges[(i + 1) % edges.size()].from;
    if (end != start)
      refuse(part, " is not closed: an edge ends at " + place(end) + ", the next starts " +
                       mm(norm(start - end)) + " away");
  }
}

void check_area(const Region& part, const HalfCircle& outer) {
  const double inside = area(part.outline);
  const Point at = part.outline.edges.front().from;
  if (std::abs(inside) < std::pow(thinnest * outer.radius, 2)) refuse(part, " has no area, at " + place(at));
  if (inside < 0) refuse(part, " is drawn clockwise, from " + place(at) + "; draw it counter-clockwise");
}

/// The point of the edge that is farthest from p.
Point farthest(const Edge& edge, Point p) {
  Point best = norm(edge.from - p) >= norm(edge.to - p) ? edge.from : edge.to;
  if (!edge.centre || *edge.centre == p) return best;
  const Point away = *edge.centre - p;
  const Point top = *edge.centre + (radius(edge) / norm(away)) * away;
  const double t = parameter_of(edge, top);
  return t > 0 && t < 1 && norm(top - p) > norm(best - p) ? top : best;
}

void check_inside(const Region& part, const HalfCircle& outer) {
  const Point middle = {0, outer.centre_z};
  for (const Edge& edge : part.outline.edges) {
    const Point at = farthest(edge, middle);
    const double beyond = norm(at - middle) - outer.radius;
    if (beyond > coincident * outer.radius)
      refuse(part, " reaches " + mm(beyond) + " beyond the half circle of radius " + mm(outer.radius) +
                       " about z = " + mm(outer.centre_z) + ", at " + place(at));
  }
}

void check_sizes(const Section& section) {
  const SizeField& sizes = section.sizes;
  bool good = std::isfinite(sizes.largest) && sizes.largest > thinnest * section.outer.radius;
  for (const SizeSource& source : sizes.sources)
    good = good && finite(source.from) && finite(source.to) && std::isfinite(source.growth) &&
           source.growth >= 0 && std::isfinite(source.size) && source.size > thinnest * section.outer.radius;
  if (!good)
    throw BadSection("the size field", "",
                     "the size field needs finite numbers, growth of 0 or more, and sizes above " +
                         mm(thinnest * section.outer.radius));
}

}  // namespace

void check_outlines(const Section& section) {
  if (!std::isfinite(section.outer.radius) || !std::isfinite(section.outer.centre_z) ||
      section.outer.radius <= 0)
    throw BadSection("the half circle", "", "the half circle needs a finite centre and a radius above 0");
  std::set<std::string> names = {air_name};
  for (const Region& part : section.parts) {
    if (!names.insert(part.name).second)
      throw BadSection(part.name, "", "two regions are called " + part.name + "; names must differ");
    check_closed(part);
    for (const Edge& edge : part.outline.edges) check_edge(part, edge, section.outer);
    check_area(part, section.outer);
    check_inside(part, section.outer);
  }
  check_sizes(section);
}

}  // namespace coilpull::detail
