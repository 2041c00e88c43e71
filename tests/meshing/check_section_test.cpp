// SPDX-License-Identifier: GPL-3.0-or-later
#include <cmath>
#include <limits>
#include <string>

#include "meshing/check_section.hpp"
#include "tests/meshing/sections.hpp"
#include "tests/near.hpp"

using namespace coilpull;

namespace {

/// What the check says; empty: nothing.
std::string verdict(const Section& section) {
  try {
    check_section(section);
  } catch (const BadSection& bad) {
    return bad.what();
  }
  return "";
}

std::string verdict(std::vector<Region> parts) { return verdict(in_air(std::move(parts))); }

const std::string share = "; parts may touch, but not share area";

}  // namespace

TEST_CASE("two parts that reach into each other are named with place and depth") {
  CHECK(verdict({block("core", 0, 7.7, -5, 5), block("winding", 7.5, 12, -4, 4)}) ==
        "core reaches 0.2 mm into winding near r = 7.6 mm, z = 0 mm" + share);
  try {
    check_section(in_air({block("core", 0, 7.7, -5, 5), block("winding", 7.5, 12, -4, 4)}));
    FAIL("the overlap was accepted");
  } catch (const BadSection& bad) {
    CHECK(bad.first == "core");
    CHECK(bad.second == "winding");
  }
}

TEST_CASE("an overlap that begins on a shared edge or corner is found") {
  // The same height, so that no two edges cross in their insides.
  CHECK(verdict({block("core", 0, 8, -5, 5), block("winding", 7, 12, -5, 5)}) ==
        "core reaches 1 mm into winding near r = 7.5 mm, z = 0 mm" + share);
  CHECK(verdict({block("a", 2, 6, 0, 4), block("b", 4, 6, 0, 4)}) ==
        "b lies inside a near r = 5 mm, z = 2 mm" + share);
  CHECK(verdict({{"a", triangle({0.002, 0}, {0.006, 0}, {0.002, 0.004})},
                 {"b", triangle({0.002, 0}, {0.006, 0.002}, {0.004, 0.006})}}) ==
        "a crosses b, by up to 4 mm, near r = 4.667 mm, z = 1.333 mm" + share);
}

TEST_CASE("a part inside another is refused, touching or not") {
  CHECK(verdict({block("shell", 0, 9, -9, 9), block("pin", 2, 4, -1, 1)}) ==
        "pin lies inside shell near r = 3 mm, z = 0 mm" + share);
  CHECK(verdict({block("pin", 0, 4, -1, 1), block("shell", 0, 9, -9, 9)}) ==
        "pin lies inside shell near r = 2 mm, z = 0 mm" + share);
  CHECK(verdict({block("one", 2, 4, -1, 1), block("two", 2, 4, -1, 1)}) ==
        "one and two are drawn over each other near r = 3 mm, z = 0 mm" + share);
  CHECK(verdict({{"ball", ball(0.004, 0)}, block("pin", 1, 2, -1, 1)}) ==
        "pin lies inside ball near r = 1.5 mm, z = 0 mm" + share);
}

TEST_CASE("arcs that cross are found, arcs that face each other are accepted") {
  CHECK(verdict({{"ball", ball(0.004, 0)}, {"other", ball(0.004, 0.007)}}) ==
        "ball crosses other, by up to 1 mm, near r = 0 mm, z = 3.5 mm" + share);
  CHECK(verdict({{"ball", ball(0.004, 0)}, block("plate", 1, 9, 3.5, 5)}) ==
        "ball crosses plate, by up to 0.5 mm, near r = 1.936 mm, z = 3.5 mm" + share);
  CHECK(verdict({{"ball", ball(0.004, 0)}, {"other", ball(0.004, 0.0081)}}) == "");
  CHECK(verdict({{"ball", ball(0.004, 0)}, {"other", ball(0.004, 0.008)}}) == "");  // touching on the axis
}

TEST_CASE("round wires that cross are found, off their corners and from one corner on") {
  // Circles of 3 mm about r = 10 and 14 mm meet at r = 12 mm, z = +-sqrt(5) mm, and share 2 mm across.
  const double half = std::sqrt(5.0);
  CHECK(verdict({ring("a", {10, 0}, {7, 0}), ring("b", {14, 0}, {17, 0})}) ==
        "a crosses b, by up to 2 mm, near r = 12 mm, z = 2.236 mm" + share);
  CHECK(verdict({ring("a", {10, 0}, {12, half}), ring("b", {14, 0}, {12, half})}) ==
        "a crosses b, by up to 2 mm, near r = 12 mm, z = -2.236 mm" + share);
  CHECK(verdict({ring("a", {10, 0}, {7, 0}), ring("b", {16.1, 0}, {19.1, 0})}) == "");
  CHECK(verdict({ring("a", {10, 0}, {7, 0}), ring("b", {16, 0}, {13, 0})}) == "");  // touching
}

TEST_CASE("a part beyond the half circle is refused with the amount") {
  CHECK(verdict({block("core", 0, 5, 0, 52)}) ==
        "core reaches 2.24 mm beyond the half circle of radius 50 mm about z = 0 mm, at r = 5 mm, z = 52 mm");
  CHECK(verdict({{"ball", ball(0.01, 0.041)}}) ==
        "ball reaches 1 mm beyond the half circle of radius 50 mm about z = 0 mm, at r = 0 mm, z = 51 mm");
}

TEST_CASE("an outline that is wrong by itself is refused with the reason") {
  const double nan = std::numeric_limits<double>::quiet_NaN();
  CHECK(verdict({Region{"core", {}}}) == "core has an outline of fewer than two edges");
  CHECK(verdict({block("core", -1, 5, 0, 5)}) ==
        "core reaches 1 mm beyond the axis, at r = -1 mm, z = 0 mm; r must be 0 or more");
  CHECK(verdict({{"core", triangle({0.001, 0}, {nan, 0}, {0.002, 0.001})}}).find("core is not closed") == 0);
  CHECK(verdict({block("core", 1, 2, 0, std::numeric_limits<double>::infinity())}) ==
        "core has a coordinate that is not a finite number");
  CHECK(verdict({block("core", 5, 1, 0, 5)}) ==
        "core is drawn clockwise, from r = 5 mm, z = 0 mm; draw it counter-clockwise");
  CHECK(verdict({block("core", 1, 1, 0, 5)}) ==
        "core has an edge of length 0 mm at r = 1 mm, z = 0 mm; an edge needs at least 5e-06 mm");
  CHECK(verdict({{"core", triangle({0.001, 0}, {0.003, 0}, {0.002, 0})}}) ==
        "core has no area, at r = 1 mm, z = 0 mm");
  CHECK(verdict({{"core", {{{{0.001, 0}, {0.003, 0}}, {{0.003, 0}, {0.002, 0.002}}}}}}) ==
        "core is not closed: an edge ends at r = 2 mm, z = 2 mm, the next starts 2.236 mm away");
  CHECK(verdict({{"core", {{{{0.001, 0}, {0.003, 0}, Point{0.0025, 0.001}}, {{0.003, 0}, {0.001, 0}}}}}}) ==
        "core has an arc at r = 1 mm, z = 0 mm whose ends differ by 0.6847 mm in their distance from its "
        "centre");
  CHECK(verdict({block("core", 0, 1, 0, 1), block("core", 2, 3, 0, 1)}) ==
        "two regions are called core; names must differ");
  CHECK(verdict({block("air", 0, 1, 0, 1)}) == "two regions are called air; names must differ");
}

TEST_CASE("an outline that crosses or retraces itself is refused") {
  // A bow tie whose counter-clockwise lobe is the larger one.
  CHECK(verdict({{"core",
                  {{{{0.001, 0}, {0.009, 0}},
                    {{0.009, 0}, {0.003, 0.006}},
                    {{0.003, 0.006}, {0.007, 0.006}},
                    {{0.007, 0.006}, {0.001, 0}}}}}}) ==
        "core crosses or retraces itself at r = 5 mm, z = 4 mm");
  // The same figure with a corner at the crossing: no two edges cross, but the small lobe is inside out.
  const Point knot{0.005, 0.004};
  CHECK(verdict({{"core",
                  {{{{0.001, 0}, {0.009, 0}},
                    {{0.009, 0}, knot},
                    {knot, {0.003, 0.006}},
                    {{0.003, 0.006}, {0.007, 0.006}},
                    {{0.007, 0.006}, knot},
                    {knot, {0.001, 0}}}}}})
            .find("core crosses or retraces itself at") == 0);
}

TEST_CASE("a gap that is neither closed nor wide enough to mesh is refused") {
  CHECK(verdict({block("a", 1, 2, 0, 1), block("b", 2.000001, 3, 0, 1)}) ==
        "a and b are only 1e-06 mm at r = 2 mm, z = 0 mm apart; draw them touching at a corner or edge, or "
        "at least "
        "5e-06 mm apart");
  CHECK(verdict({block("a", 1, 2, 0, 1), block("b", 2.0005, 3, 0, 1)}) == "");  // 1e-5 of the radius
  // A ball on a plate beside the axis: they touch where neither has a corner, and a wedge of air closes to
  // nothing.
  const Point left{0.008, 0}, right{0.012, 0}, centre{0.010, 0};
  CHECK(verdict({{"ring", {{{left, right, centre}, {right, left, centre}}}}, block("plate", 0, 20, -4, -2)})
            .find("ring and plate are only") == 0);
  CHECK(verdict({block("core", 1e-7, 3, 0, 1)}).find("core comes within 1e-07 mm at") == 0);
}

TEST_CASE("sizes that are not positive finite numbers are refused") {
  Section section = in_air({block("core", 0, 1, 0, 1)});
  section.sizes.sources[0].size = 0;
  CHECK(verdict(section).find("the size field needs finite numbers") == 0);
  section.sizes.sources[0].size = 1e-3;
  section.sizes.largest = std::numeric_limits<double>::quiet_NaN();
  CHECK(verdict(section).find("the size field needs finite numbers") == 0);
  section.sizes.largest = 1e-2;
  section.outer.radius = -1;
  CHECK(verdict(section) == "the half circle needs a finite centre and a radius above 0");
}
