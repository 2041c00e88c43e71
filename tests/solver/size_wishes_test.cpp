// SPDX-License-Identifier: GPL-3.0-or-later
#include "solver/device/size_wishes.hpp"

#include <cmath>

#include "materials/constants.hpp"
#include "tests/near.hpp"

namespace coilpull {

namespace {

/// Wanted edge length at a point when this is all there is.
double wish_at(const Outline& outline, Point at) {
  Device device;
  device.cores = {{"core", outline, LinearLaw{100}, "test"}};
  device.displacements = {0};
  return size_at(section_at(device, 0).sizes, at);
}

Outline cone(double radius, double height) {
  const Point foot{0, 0}, edge{radius, 0}, tip{0, height};
  return {{{foot, edge}, {edge, tip}, {tip, foot}}};
}

}  // namespace

TEST_CASE("the tip of a cone asks for small triangles like any corner, the flat end of a rod does not") {
  const double flank = wish_at(cone(5e-3, 8e-3), {2.5e-3, 4e-3});
  CHECK(wish_at(cone(5e-3, 8e-3), {0, 8e-3}) < 0.2 * flank);
  CHECK(wish_at(rectangle(0, 5e-3, 0, 8e-3), {0, 8e-3}) > 0.5 * flank);
}

TEST_CASE("along a sharp tip triangles grow no faster than the tip widens") {
  // Half angle 2 degrees: wider by 2 * 0.035 a unit of length over the full tip.
  const Outline needle = cone(15e-3 * std::tan(2 * pi / 180), 15e-3);
  const double at_tip = wish_at(needle, {0, 15e-3}), further = wish_at(needle, {0, 14.5e-3});
  CHECK((further - at_tip) / 0.5e-3 < 4 * 2 * pi / 180 + 1e-9);
}

TEST_CASE("a ball has no corners: one wish all round it") {
  const double radius = 5e-3;
  const Point centre{0, 0}, bottom{0, -radius}, right{radius, 0}, top{0, radius};
  const Outline ball{{{bottom, right, centre}, {right, top, centre}, {top, bottom}}};
  const double wish = wish_at(ball, right);
  CHECK(wish_at(ball, top) == near(wish, 1e-9));
  CHECK(wish_at(ball, bottom) == near(wish, 1e-9));
}

TEST_CASE("a small fillet is meshed by its own length, finer than the faces beside it, and has no corner") {
  const double radius = 5e-3, height = 8e-3, fillet = 0.2e-3;
  const Point start{radius, height - fillet}, end{radius - fillet, height},
      centre{radius - fillet, height - fillet};
  const Outline rod{{{{0, 0}, {radius, 0}},
                     {{radius, 0}, start},
                     {start, end, centre},
                     {end, {0, height}},
                     {{0, height}, {0, 0}}}};
  const Resolution resolution;
  const Point middle{centre.r + fillet * std::sqrt(0.5), centre.z + fillet * std::sqrt(0.5)};
  const double asked = resolution.per_length * fillet * pi / 2;
  CHECK(wish_at(rod, middle) == near(asked, 0.05));  // the straight pieces of its size field cut it short
  CHECK(wish_at(rod, start) == near(asked, 0.05));
  CHECK(wish_at(rod, {radius, height / 2}) > 4 * asked);
}

TEST_CASE("parts that touch but for rounding leave no gap to be meshed") {
  Device device;
  const double top = 8e-3, off = 1e-18;  // far below what a drawing in mm can mean
  device.cores = {{"rod", rectangle(0, 5e-3, 0, top), LinearLaw{100}, "test"},
                  {"keeper", rectangle(2e-3, 7e-3, top + off, 10e-3), LinearLaw{100}, "test"}};
  REQUIRE(device.cores[1].outline.edges[0].from.z > top);
  device.displacements = {0};
  const Section rounded = section_at(device, 0);
  device.cores[1].outline = rectangle(2e-3, 7e-3, top, 10e-3);
  const Section touching = section_at(device, 0);
  for (const Point at : {Point{2e-3, top}, Point{3.5e-3, top}, Point{5e-3, top}})
    CHECK(size_at(rounded.sizes, at) == near(size_at(touching.sizes, at), 1e-9));
}

TEST_CASE("a spot asks for its size, a finer mesh for less there as everywhere") {
  Device device;
  device.cores = {{"core", rectangle(5e-3, 15e-3, 0, 40e-3), LinearLaw{100}, "test"}};
  device.displacements = {0};
  const Point at{10e-3, 20e-3};
  Resolution resolution;
  CHECK(size_at(section_at(device, 0, resolution).sizes, at) > 2e-3);
  resolution.spots = {{at, 0.1e-3}};
  CHECK(size_at(section_at(device, 0, resolution).sizes, at) == near(0.1e-3, 1e-12));
  resolution.fineness = 1.25;
  CHECK(size_at(section_at(device, 0, resolution).sizes, at) == near(0.08e-3, 1e-12));
}

}  // namespace coilpull
