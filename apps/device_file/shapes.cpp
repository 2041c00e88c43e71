// SPDX-License-Identifier: GPL-3.0-or-later
#include "apps/device_file/shapes.hpp"

#include <algorithm>

#include "apps/device_file/read_profile.hpp"
#include "apps/device_file/simple_shapes.hpp"

namespace coilpull {

namespace {

struct ShapeKind {
  const char* key;
  const char* example;
  Outline (*read)(const Value& shape, const SourceText& text, const std::string& example);
};

template <Outline (*read)(const Table&, const std::string&)>
Outline in_braces(const Value& shape, const SourceText& text, const std::string& example) {
  return read(inline_table(shape, text, example), "For example " + example);
}

const std::vector<ShapeKind> shape_kinds = {
    {"tube", "tube = { inner_radius_mm = 5.5, outer_radius_mm = 7, from_mm = -14, to_mm = 14 }",
     in_braces<read_tube>},
    {"cylinder", "cylinder = { radius_mm = 4.5, from_mm = -30, to_mm = -20 }", in_braces<read_cylinder>},
    {"cone", "cone = { from_radius_mm = 4.5, to_radius_mm = 0, from_mm = 0, to_mm = 12 }",
     in_braces<read_cone>},
    {"ball", "ball = { radius_mm = 4.5, centre_mm = 0 }", in_braces<read_ball>},
    {"profile", "profile = [{ r_mm = 0, z_mm = 0 }, { r_mm = 4, z_mm = 0 }, { r_mm = 0, z_mm = 9 }]",
     read_profile}};

/// The edge that leads to the lowest point, innermost if there are several, stands first: so that a section
/// is the same wherever its drawing began.
Outline begun_at_the_bottom(Outline outline) {
  const auto lower = [](const Edge& a, const Edge& b) {
    return a.to.z != b.to.z ? a.to.z < b.to.z : a.to.r < b.to.r;
  };
  std::vector<Edge>& edges = outline.edges;
  std::rotate(edges.begin(), std::min_element(edges.begin(), edges.end(), lower), edges.end());
  return outline;
}

}  // namespace

Shape read_shape(const Table& part) {
  std::optional<Value> found;
  const ShapeKind* kind = nullptr;
  std::vector<std::string> keys;
  for (const ShapeKind& candidate : shape_kinds) {
    keys.emplace_back(candidate.key);
    const auto value = part.find(candidate.key);
    if (value && found) {
      Place second = value->place;
      second.value.clear();
      refuse(second, "a second shape for one part.",
             "Keep one of the two, or make two parts, which may touch each other.");
    }
    if (value) {
      found = value;
      kind = &candidate;
    }
  }
  if (!found) {
    part.refuse_misspelt(keys);
    refuse(part.place(), "has no shape.", std::string("For example ") + shape_kinds[0].example);
  }
  return {begun_at_the_bottom(kind->read(*found, part.text(), kind->example)), *found};
}

}  // namespace coilpull
