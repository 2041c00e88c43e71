// SPDX-License-Identifier: GPL-3.0-or-later
#include "apps/device_file/shapes.hpp"

#include "apps/device_file/keys.hpp"

namespace coilpull {

namespace {

struct ShapeKind {
  const char* key;
  const char* example;
  Outline (*read)(const Table& shape, const std::string& example);
};

struct Interval {
  double from, to;  // [m]
};

Interval read_from_to(const Table& shape, const std::string& example) {
  const Quantity from = length_m(shape, "from", example);
  const Quantity to = length_m(shape, "to", example);
  if (!(from.si < to.si))
    refuse(to.value.place, "has to lie above " + from.value.place.key + " = " + from.value.place.value + ".",
           "Both are places on the axis, z: the lower end first.");
  return {from.si, to.si};
}

void refuse_unless_positive(const Quantity& radius) {
  if (!(radius.si > 0)) refuse(radius.value.place, "has to be greater than 0.");
}

Outline read_tube(const Table& shape, const std::string& example) {
  const Quantity inner = radius_m(shape, "inner_", example);
  const Quantity outer = radius_m(shape, "outer_", example);
  const Interval z = read_from_to(shape, example);
  shape.refuse_unread_keys();
  if (!(inner.si > 0))
    refuse(inner.value.place, "the bore of a tube has to be wider than 0.",
           "A body without a bore is a cylinder = { radius_mm, from_mm, to_mm }.");
  if (!(outer.si > inner.si))
    refuse(outer.value.place,
           "has to be wider than the bore, " + inner.value.place.key + " = " + inner.value.place.value + ".");
  return rectangle(inner.si, outer.si, z.from, z.to);
}

Outline read_cylinder(const Table& shape, const std::string& example) {
  const Quantity radius = radius_m(shape, "", example);
  const Interval z = read_from_to(shape, example);
  shape.refuse_unread_keys();
  refuse_unless_positive(radius);
  return rectangle(0, radius.si, z.from, z.to);
}

const std::vector<ShapeKind> shape_kinds = {
    {"tube", "tube = { inner_radius_mm = 5.5, outer_radius_mm = 7, from_mm = -14, to_mm = 14 }", read_tube},
    {"cylinder", "cylinder = { radius_mm = 4.5, from_mm = -30, to_mm = -20 }", read_cylinder}};

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
  const std::string example = std::string("For example ") + kind->example;
  return {kind->read(inline_table(*found, part.text(), kind->example), example), *found};
}

}  // namespace coilpull
