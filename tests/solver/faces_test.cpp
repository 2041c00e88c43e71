// SPDX-License-Identifier: GPL-3.0-or-later
// Faces of a drawing and what they are called, and what becomes of a force when their dimensions change.
#include "solver/device/faces.hpp"

#include <algorithm>
#include <cmath>
#include <string>

#include "materials/constants.hpp"
#include "solver/refine/first_order_change.hpp"
#include "tests/near.hpp"

namespace coilpull {
namespace {

/// Half a disc on the axis, cut along its equator into two quarter arcs.
Outline ball(double radius) {
  const Point low{0, -radius}, side{radius, 0}, high{0, radius}, centre{0, 0};
  return {{{low, side, centre}, {side, high, centre}, {high, low}}};
}

Outline wedge(double tip) {
  return {{{{0.02, 0}, {tip, 0}}, {{tip, 0}, {0.02, 0.01}}, {{0.02, 0.01}, {0.02, 0}}}};
}

/// A tube of steel, a ball of a magnet, and a wedge that no key of a drawing describes.
Device drawn(double outer_radius, double ball_radius = 0.005, double tip = 0.03) {
  Device device;
  device.cores.push_back({"tube", rectangle(0.008, outer_radius, 0, 0.02), LinearLaw{1000}, "invented"});
  device.cores.push_back({"wedge", wedge(tip), LinearLaw{1000}, "invented"});
  device.magnets.push_back({"ball", ball(ball_radius), {0, 1.2, 1.05}, "invented"});
  device.displacements = {0};
  return device;
}

Sensitivity slope_of(const std::string& part, const std::string& quantity, double newton_per) {
  return {{{part, quantity}}, {}, {}, true, {newton_per, 0}};
}

}  // namespace

TEST_CASE(
    "two arcs of one circle are one face, and every kind of face has its name, dimension and direction") {
  const std::vector<Face> faces =
      faces_of({{"tube", rectangle(0.008, 0.01, 0, 0.02)}, {"wedge", wedge(0.03)}, {"ball", ball(0.005)}});
  REQUIRE(faces.size() == 8);  // four, three, and the axis is none
  std::vector<std::string> names;
  for (int k = 0; k < 8; ++k) {
    names.push_back(dimension_name(faces, k));
    CHECK(has_key(faces, k) == (k < 4));
  }
  for (const char* name : {"inner radius", "outer radius", "from", "to", "flat face", "slanted face",
                           "cylindrical face", "arc radius"})
    CHECK(std::count(names.begin(), names.end(), name) == 1);
  CHECK(faces[7].edges.size() == 2);
  CHECK(faces[7].length == near(0.005 * pi, 1e-12));
  CHECK(dimension_of(faces[7]).value() == near(0.005, 1e-15));
  const OnFace middle = locate(faces[7], {0.006, 0});
  CHECK(middle.distance == near(0.001, 1e-9));
  CHECK(middle.u == near(0.5, 1e-9));
  CHECK(growing_direction(faces[7], middle).x() == near(1, 1e-9));  // away from the centre
  const auto slanted =
      static_cast<int>(std::find(names.begin(), names.end(), "slanted face") - names.begin());
  CHECK_FALSE(dimension_of(faces[slanted]).has_value());
  const Eigen::Vector2d out = growing_direction(faces[slanted], locate(faces[slanted], {0.025, 0.005}));
  CHECK(out.x() == near(std::sqrt(0.5), 1e-9));  // the wedge lies below and inside its slope of 45 degrees
  CHECK(out.y() == near(std::sqrt(0.5), 1e-9));
}

TEST_CASE("a changed dimension changes the force by its slope, and what no slope tells is not guessed") {
  SensitivityList list;
  list.ranked = {slope_of("tube", "outer radius", 200)};
  const Device from = drawn(0.01);
  CHECK(first_order_change(list, from, from, 0).value() == 0);
  CHECK(first_order_change(list, from, drawn(0.0101), 0).value() == near(200 * 1e-4, 1e-9));
  CHECK_FALSE(first_order_change(list, from, drawn(0.01, 0.006), 0).has_value());         // an arc
  CHECK_FALSE(first_order_change(list, from, drawn(0.01, 0.005, 0.031), 0).has_value());  // a slanted face
  CHECK_FALSE(first_order_change({}, from, drawn(0.0101), 0).has_value());  // no slope of this dimension
  Device turned = from, fewer = from, renamed = from;
  turned.magnets[0].law.remanence_r_T = 0.1;
  CHECK_FALSE(first_order_change(list, from, turned, 0).has_value());
  fewer.magnets.clear();
  CHECK_FALSE(first_order_change(list, from, fewer, 0).has_value());
  renamed.cores[1].name = "other";
  CHECK_FALSE(first_order_change(list, from, renamed, 0).has_value());
}

TEST_CASE("touching faces that part leave the force untold, those that move together count once") {
  SensitivityList list;
  list.ranked = {slope_of("tube", "outer radius", 200)};
  list.ranked[0].of.push_back({"sleeve", "inner radius"});
  const auto with_sleeve = [](double tube, double sleeve) {
    Device device = drawn(tube);
    device.cores.push_back({"sleeve", rectangle(sleeve, 0.012, 0, 0.02), LinearLaw{10}, "invented"});
    return device;
  };
  CHECK(first_order_change(list, with_sleeve(0.01, 0.01), with_sleeve(0.0101, 0.0101), 0).value() ==
        near(200 * 1e-4, 1e-9));
  CHECK_FALSE(first_order_change(list, with_sleeve(0.01, 0.01), with_sleeve(0.01, 0.0101), 0).has_value());
}

}  // namespace coilpull
