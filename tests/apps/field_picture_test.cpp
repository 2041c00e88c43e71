// SPDX-License-Identifier: GPL-3.0-or-later
#include "apps/output/field_picture.hpp"

#include <doctest/doctest.h>

#include <cmath>
#include <set>

#include "apps/output/field_map.hpp"
#include "apps/output/flux_lines.hpp"
#include "tests/near.hpp"

using namespace coilpull;

namespace {

/// A square of 2 x 2 small squares, 1 m each, from (0, -1) to (2, 1), two triangles in each; psi = z, B =
/// (0.3, 0.4) T.
FieldSample square() {
  FieldSample all;
  all.divisions = 3;
  std::vector<Eigen::Vector2d> at;
  for (int x = 0; x < 2; ++x)
    for (int y = -1; y < 1; ++y)
      for (const bool upper : {false, true}) {
        const Eigen::Vector2d a(x + upper, y + upper), b(x + !upper, y), c(x, y + 1);
        const Eigen::Vector2d p[3] = {upper ? c : a, upper ? Eigen::Vector2d(x + 1, y) : b, upper ? a : c};
        all.region_of.push_back(0);
        for (int j = 0; j <= 3; ++j)
          for (int i = 0; i + j <= 3; ++i) at.push_back(((3 - i - j) * p[0] + i * p[1] + j * p[2]) / 3.0);
      }
  const auto points = static_cast<Eigen::Index>(at.size());
  all.at.resize(2, points);
  all.b.resize(2, points);
  all.flux.resize(points);
  all.a_phi = Eigen::VectorXd::Zero(points);
  for (Eigen::Index k = 0; k < points; ++k) {
    all.at.col(k) = at[k];
    all.flux[k] = at[k].y();
    all.b.col(k) = Eigen::Vector2d(0.3, 0.4);
  }
  return all;
}

}  // namespace

TEST_CASE("flux lines lie half a step and whole steps from zero, each in one piece through all triangles") {
  const auto lines = flux_lines(square(), 0.5);
  std::set<double> heights;
  for (const std::vector<Point>& line : lines) {
    for (const Point& point : line) CHECK(point.z == near(line.front().z, 1e-12));
    heights.insert(std::round(1e6 * line.front().z) * 1e-6);
    CHECK(std::abs(line.front().r - line.back().r) == near(2, 1e-12));  // from side to side
  }
  CHECK(lines.size() == 4);
  CHECK(heights == std::set<double>{-0.75, -0.25, 0.25, 0.75});
}

TEST_CASE("a map of a uniform field has its value on every pixel of the mesh and none outside") {
  const FieldMap map = field_map(square(), {0, 3, -1, 1}, 40);
  REQUIRE(map.rows == 60);
  for (int row = 0; row < map.rows; ++row)
    for (int column = 0; column < map.columns; ++column) {
      const float b = map.b_T[static_cast<std::size_t>(row) * map.columns + column];
      if (row < 20)
        CHECK(std::isnan(b));  // r = 2 to 3
      else
        CHECK(b == near(0.5, 1e-6));  // single precision
    }
  CHECK(nearly_highest(map) == near(0.5, 1e-6));
  CHECK(coloured(map, 0.5, Halves::both).rows == 120);
}

TEST_CASE("a field picture can be drawn whole and half, also of no field at all") {
  FieldSample all = square();
  Device device;
  device.title = "square";
  device.magnets.push_back({"block", rectangle(0, 1, -0.5, 0.5), {0, 1, 1}, "invented"});
  CHECK(draw_field(all, device, 0, "").height() > draw_field(all, device, 0, "", Halves::upper).height());
  all.flux.setZero();
  all.b.setZero();
  CHECK(!draw_field(all, device, 0, "").png(1).empty());
}
