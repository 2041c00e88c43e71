// SPDX-License-Identifier: GPL-3.0-or-later
#include <cmath>

#include "materials/constants.hpp"
#include "meshing/detail/orientation.hpp"
#include "meshing/outline.hpp"
#include "meshing/size_field.hpp"
#include "tests/meshing/sections.hpp"
#include "tests/near.hpp"

using namespace coilpull;

namespace {
// Rounding alone: a few tens of operations of 1e-16 each.
constexpr double rounding = 1e-14;
}  // namespace

TEST_CASE("a rectangle has the area and the volume of its ring") {
  const Outline ring = rectangle(0.004, 0.009, -0.003, 0.011);
  CHECK(area(ring) == near(0.005 * 0.014, rounding));
  CHECK(volume(ring) == near(pi * (0.009 * 0.009 - 0.004 * 0.004) * 0.014, rounding));
  CHECK(area(moved(ring, 5.0)) == near(0.005 * 0.014, 1e-12));  // 5 m away 1e-15 m of each corner is lost
}

TEST_CASE("a half disc about the axis has the volume of a sphere") {
  const Outline sphere = ball(0.003, 0.4);
  CHECK(area(sphere) == near(pi * 0.003 * 0.003 / 2, 1e-13));  // z = 0.4 loses two digits of the 3 mm
  CHECK(volume(sphere) == near(4. / 3 * pi * std::pow(0.003, 3), 1e-13));
}

TEST_CASE("a circle of two half turns off the axis has the volume of a torus") {
  const Point left{0.008, 0.001}, right{0.012, 0.001}, centre{0.010, 0.001};
  const Outline torus = {{{left, right, centre}, {right, left, centre}}};
  CHECK(area(torus) == near(pi * 0.002 * 0.002, rounding));
  CHECK(volume(torus) == near(2 * pi * 0.010 * pi * 0.002 * 0.002, rounding));  // Pappus
  const Box box = bounding_box(torus);
  CHECK(box.r_from == near(0.008, rounding));
  CHECK(box.z_from == near(-0.001, rounding));
  CHECK(box.z_to == near(0.003, rounding));
}

TEST_CASE("an arc that bends inwards takes area away, a flat one almost none") {
  const Point a{0.002, 0}, b{0.004, 0}, c{0.004, 0.002}, d{0.002, 0.002};
  // a quarter circle of radius 2 mm about b, run clockwise from c to a: the corner d is cut out
  const Outline cut = {{{a, b}, {b, c}, {c, a, b}}};
  CHECK(area(cut) == near(pi * 4e-6 / 4, rounding));
  const Outline hollow = {{{b, c}, {c, d}, {d, b, Point{0.004, 0.002}}}};
  CHECK(area(hollow) == near(pi * 4e-6 / 4, rounding));
  const Outline scooped = {{{a, b}, {b, d, a}, {d, a}}};
  CHECK(area(scooped) == near(pi * 4e-6 / 4, rounding));
  const Outline notched = {{{b, c}, {c, d}, {d, b, a}}};  // the same quarter, seen from the other corner
  CHECK(area(notched) == near(4e-6 * (1 - pi / 4), 1e-13));
  const double sagitta = 1e-9, radius = 1e-6 / (2 * sagitta);  // chord 2 mm: R = (1 mm)^2 / 2 s
  const Outline lens = {{{a, b}, {b, a, Point{0.003, -std::sqrt(radius * radius - 1e-6)}}}};
  CHECK(area(lens) ==
        near(2. / 3 * 0.002 * sagitta, 1e-6));  // a parabola's area; the next term is (s/chord)^2,
                                                // and the centre is drawn to 6e-14 m
}

TEST_CASE("distance between boundaries is exact for lines and arcs, and zero when they touch or cross") {
  const Outline square = rectangle(0.001, 0.003, 0, 0.002);
  CHECK(distance(square, rectangle(0.003, 0.004, 0.0005, 0.001)) == 0);
  CHECK(distance(square, rectangle(0.002, 0.004, 0.001, 0.005)) == 0);
  CHECK(distance(square, rectangle(0.006, 0.007, 0.006, 0.008)) == near(0.005, rounding));
  CHECK(distance(ball(0.003, 0), ball(0.002, 0.006)) == near(0.001, 1e-12));
  CHECK(distance(ball(0.003, 0), rectangle(0.004, 0.006, -0.001, 0.001)) == near(0.001, 1e-12));
  CHECK(distance(ball(0.003, 0), rectangle(0, 0.01, 0.0031, 0.004)) == near(0.0001, 1e-11));
  CHECK(distance(ball(0.003, 0), rectangle(0.002, 0.01, 0.002, 0.004)) == 0);
  CHECK(distance(triangle({0.01, 0}, {0.02, 0}, {0.01, 0.01}), rectangle(0.018, 0.03, 0.012, 0.02)) ==
        near(0.010 / std::sqrt(2.), 1e-12));  // corner (18, 12) from the line r + z = 20: 10 / sqrt 2
}

TEST_CASE("the size field is the least of what its sources ask for") {
  const SizeField field = {0.01, {{{0, 0}, {0.004, 0}, 0.001, 0.5}, {{0.02, 0}, {0.02, 0}, 0.002, 0.1}}};
  CHECK(size_at(field, {0.002, 0}) == near(0.001, rounding));
  CHECK(size_at(field, {0.002, 0.004}) == near(0.003, rounding));  // 1 + 0.5 * 4
  CHECK(size_at(field, {0.02, 0.010}) == near(0.003, rounding));   // 2 + 0.1 * 10
  CHECK(size_at(field, {0.02, 1.0}) == near(0.01, rounding));
}

TEST_CASE("the turn of three points is exact where rounding hides it") {
  // Along the diagonal the products of differences round to the same number; one last bit decides.
  const Point a{0.5, 0.5}, b{12, 12};
  const double up = std::nextafter(24.0, 25.0), down = std::nextafter(24.0, 23.0);
  CHECK(detail::orientation(a, b, {24, 24}) == 0);
  CHECK(detail::orientation(a, b, {24, up}) == 1);
  CHECK(detail::orientation(a, b, {up, 24}) == -1);
  CHECK(detail::orientation(a, b, {24, down}) == -1);
  const double third = 1. / 3, bit = std::nextafter(third, 1.0);
  CHECK(detail::orientation({0, 0}, {third, third}, {1e9, 1e9}) == 0);
  CHECK(detail::orientation({0, 0}, {bit, third}, {1e9, 1e9}) == 1);
  CHECK(detail::orientation({0, 0}, {third, bit}, {1e9, 1e9}) == -1);
}
