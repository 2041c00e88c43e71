// SPDX-License-Identifier: GPL-3.0-or-later
#include "apps/device_file/simple_shapes.hpp"

#include "apps/device_file/drawn_outline.hpp"
#include "apps/device_file/keys.hpp"

namespace coilpull {

namespace {

/// from and to, or centre and length.
Ends read_interval(const Table& shape, const std::string& example) {
  const auto centre = find_length_m(shape, "centre"), length = find_length_m(shape, "length");
  if (!centre && !length) {
    const Quantity from = length_m(shape, "from", example);
    const Quantity to = length_m(shape, "to", example);
    if (!(from.si < to.si))
      refuse(to.value.place,
             "has to lie above " + from.value.place.key + " = " + from.value.place.value + ".",
             "Both are places on the axis, z: the lower end first.");
    return {from.si, to.si};
  }
  const Quantity& one = centre ? *centre : *length;
  for (const char* end : {"from", "to"})
    if (const auto given = find_length_m(shape, end))
      refuse(given->value.place, "stands beside " + one.value.place.key + " = " + one.value.place.value + ".",
             "Give either both ends, from and to, or centre and length.");
  const Quantity middle = length_m(shape, "centre", "A length needs the z of its middle beside it.");
  const Quantity whole = length_m(shape, "length", "A centre needs the length along z beside it.");
  if (!(whole.si > 0)) refuse(whole.value.place, "has to be greater than 0.");
  return ends_about(middle, whole);
}

void refuse_unless_positive(const Quantity& radius) {
  if (!(radius.si > 0)) refuse(radius.value.place, "has to be greater than 0.");
}

void refuse_negative(const Quantity& length) {
  if (length.si < 0) refuse(length.value.place, "has to be 0 or more.");
}

struct NamedCorner {
  const char* name;  ///< "_from_outer"; empty: on the axis
  Point at;
};

/// Whether any corner is to be cut. The many keys for it are spoken of only where one is used or was meant.
bool asks_for_cuts(const Table& shape, const std::vector<NamedCorner>& corners) {
  for (const auto& [key, value] : shape.in_file_order())
    if (key.rfind("chamfer", 0) == 0 || key.rfind("fillet", 0) == 0) return true;
  std::vector<std::string> spellings;
  for (const char* cut : {"chamfer", "fillet"}) {
    spellings.push_back(std::string(cut) + "_mm");
    for (const NamedCorner& corner : corners)
      if (*corner.name != '\0') spellings.push_back(std::string(cut) + corner.name + "_mm");
  }
  shape.refuse_misspelt(spellings);
  return false;
}

/// chamfer<corner>_mm or fillet<corner>_mm. A size of 0 is a cut too: it leaves this corner sharp.
std::optional<Cut> find_cut(const Table& shape, const std::string& corner) {
  const auto chamfer = find_length_m(shape, "chamfer" + corner);
  const auto fillet = find_length_m(shape, "fillet" + corner);
  if (chamfer && fillet)
    refuse(
        fillet->value.place,
        "there is a chamfer already, " + chamfer->value.place.key + " = " + chamfer->value.place.value + ".",
        "A corner is either cut or rounded: keep one of the two.");
  if (!chamfer && !fillet) return std::nullopt;
  const Quantity& size = chamfer ? *chamfer : *fillet;
  refuse_negative(size);
  return Cut{chamfer ? Cut::chamfer : Cut::fillet, size.si, size.value.place};
}

/// The body between its corners, counter-clockwise, with the cuts its keys ask for.
Outline with_cuts(const Table& shape, const std::vector<NamedCorner>& corners) {
  const bool cuts = asks_for_cuts(shape, corners);
  const auto all = cuts ? find_cut(shape, "") : std::nullopt;
  std::vector<DrawnPoint> points;
  for (const NamedCorner& corner : corners) {
    auto cut = cuts && *corner.name != '\0' ? find_cut(shape, corner.name) : std::nullopt;
    if (!cut && corner.at.r > 0) cut = all;
    if (cut && cut->size == 0) cut.reset();
    points.push_back({corner.at, cut});
  }
  shape.refuse_unread_keys();
  return loop_through(points).outline;
}

void refuse_bore_as_wide(const Quantity& inner, const Quantity& outer) {
  if (!(outer.si > inner.si))
    refuse(outer.value.place,
           "has to be wider than the bore, " + inner.value.place.key + " = " + inner.value.place.value + ".");
}

}  // namespace

Outline plain_body(const Box& box) {
  return loop_through({{{box.r_from, box.z_from}},
                       {{box.r_to, box.z_from}},
                       {{box.r_to, box.z_to}},
                       {{box.r_from, box.z_to}}})
      .outline;
}

Outline read_tube(const Table& shape, const std::string& example) {
  const Quantity inner = radius_m(shape, "inner_", example);
  const Quantity outer = radius_m(shape, "outer_", example);
  const Ends z = read_interval(shape, example);
  if (!(inner.si > 0))
    refuse(inner.value.place, "the bore of a tube has to be wider than 0.",
           "A body without a bore is a cylinder = { radius_mm, from_mm, to_mm }.");
  refuse_bore_as_wide(inner, outer);
  return with_cuts(shape, {{"_from_inner", {inner.si, z.from}},
                           {"_from_outer", {outer.si, z.from}},
                           {"_to_outer", {outer.si, z.to}},
                           {"_to_inner", {inner.si, z.to}}});
}

Outline read_cylinder(const Table& shape, const std::string& example) {
  const Quantity radius = radius_m(shape, "", example);
  const Ends z = read_interval(shape, example);
  refuse_unless_positive(radius);
  return with_cuts(shape, {{"", {0, z.from}},
                           {"_from_outer", {radius.si, z.from}},
                           {"_to_outer", {radius.si, z.to}},
                           {"", {0, z.to}}});
}

Outline read_cone(const Table& shape, const std::string& example) {
  const Quantity from = radius_m(shape, "from_", example);
  const Quantity to = radius_m(shape, "to_", example);
  const auto bore = find_radius_m(shape, "inner_");
  const Ends z = read_interval(shape, example);
  refuse_negative(from);
  refuse_negative(to);
  if (bore) refuse_unless_positive(*bore);
  const double inner = bore ? bore->si : 0;
  for (const Quantity& outer : {from, to})
    if (outer.si < inner) refuse_bore_as_wide(*bore, outer);
  if (from.si == inner && to.si == inner)
    refuse(to.value.place, bore ? "the cone is nowhere wider than its bore." : "the cone has no width.",
           "One end may be sharp, the other has to be wider.");
  std::vector<NamedCorner> corners;
  if (from.si > inner) corners.push_back({bore ? "_from_inner" : "", {inner, z.from}});
  corners.push_back({"_from_outer", {from.si, z.from}});
  corners.push_back({"_to_outer", {to.si, z.to}});
  if (to.si > inner) corners.push_back({bore ? "_to_inner" : "", {inner, z.to}});
  return with_cuts(shape, corners);
}

Outline read_ball(const Table& shape, const std::string& example) {
  const Quantity radius = radius_m(shape, "", example);
  const double centre = length_m(shape, "centre", example).si;
  shape.refuse_unread_keys();
  refuse_unless_positive(radius);
  const Point middle{0, centre};
  return loop_through({{{0, centre - radius.si}},
                       {{radius.si, centre}, {}, DrawnArc{middle, true}},
                       {{0, centre + radius.si}, {}, DrawnArc{middle, true}}})
      .outline;
}

}  // namespace coilpull
