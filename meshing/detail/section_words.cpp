// SPDX-License-Identifier: GPL-3.0-or-later
#include "meshing/detail/section_words.hpp"

#include <algorithm>
#include <cmath>
#include <cstdio>
#include <utility>

#include "meshing/bad_section.hpp"
#include "meshing/check_section.hpp"

namespace coilpull::detail {
namespace {

std::string short_number(double value) {
  char text[32];
  std::snprintf(text, sizeof text, "%.4g", value == 0 ? 0.0 : value);
  return text;
}

bool inside(const Box& inner, const Box& outer) {
  return inner.r_from >= outer.r_from && inner.r_to <= outer.r_to && inner.z_from >= outer.z_from &&
         inner.z_to <= outer.z_to;
}

/// The outline is its own box, up to rounding.
bool fills(const Outline& outline, const Box& box) {
  const double all = (box.r_to - box.r_from) * (box.z_to - box.z_from);
  return std::abs(area(outline) - all) <= 1e-9 * all;
}

Point centre(const Box& box) { return {(box.r_from + box.r_to) / 2, (box.z_from + box.z_to) / 2}; }

std::string near(Point at) { return " near " + place(at) + "; parts may touch, but not share area"; }

}  // namespace

std::string mm(double length) { return short_number(1e3 * length) + " mm"; }

std::string place(Point at) { return "r = " + mm(at.r) + ", z = " + mm(at.z); }

std::string name_of(const Section& section, int part) {
  return part == boundary ? std::string("the axis or the half circle") : section.parts[part].name;
}

void throw_crossing(const Section& section, int part, int other, Point at) {
  if (part > other) std::swap(part, other);
  const std::string first = name_of(section, part), second = name_of(section, other);
  if (part == other) throw BadSection(first, "", first + " crosses or retraces itself at " + place(at));
  if (part == boundary) throw BadSection(second, "", second + " crosses " + first + " at " + place(at));
  const Outline &one = section.parts[part].outline, &two = section.parts[other].outline;
  const Box a = bounding_box(one), b = bounding_box(two);
  const double depth = std::min({a.r_to - b.r_from, b.r_to - a.r_from, a.z_to - b.z_from, b.z_to - a.z_from});
  if (depth < thinnest * section.outer.radius)
    throw_near_touch(section, part, other, at, std::max(depth, 0.0));
  const Point middle = {(std::max(a.r_from, b.r_from) + std::min(a.r_to, b.r_to)) / 2,
                        (std::max(a.z_from, b.z_from) + std::min(a.z_to, b.z_to)) / 2};
  if (fills(one, a) && fills(two, b))
    throw BadSection(first, second, first + " reaches " + mm(depth) + " into " + second + near(middle));
  throw BadSection(first, second, first + " crosses " + second + ", by up to " + mm(depth) + "," + near(at));
}

void throw_overlap(const Section& section, int part, int other, Point at) {
  if (part > other) std::swap(part, other);
  if (part == other || part == boundary) throw_crossing(section, part, other, at);
  const std::string first = name_of(section, part), second = name_of(section, other);
  const Box a = bounding_box(section.parts[part].outline), b = bounding_box(section.parts[other].outline);
  if (inside(a, b) && inside(b, a))
    throw BadSection(first, second,
                     first + " and " + second + " are drawn over each other" + near(centre(a)));
  if (inside(a, b)) throw BadSection(first, second, first + " lies inside " + second + near(centre(a)));
  if (inside(b, a)) throw BadSection(first, second, second + " lies inside " + first + near(centre(b)));
  throw_crossing(section, part, other, at);
}

void throw_near_touch(const Section& section, int part, int other, Point at, double gap) {
  if (part > other) std::swap(part, other);
  const std::string limit = "; draw them touching at a corner or edge, or at least " +
                            mm(thinnest * section.outer.radius) + " apart";
  const std::string first = name_of(section, part), second = name_of(section, other);
  const std::string amount = mm(gap) + " at " + place(at);
  if (part == other) throw BadSection(first, "", first + " comes within " + amount + " of itself" + limit);
  if (part == boundary)
    throw BadSection(second, "", second + " comes within " + amount + " of " + first + limit);
  throw BadSection(first, second, first + " and " + second + " are only " + amount + " apart" + limit);
}

}  // namespace coilpull::detail
