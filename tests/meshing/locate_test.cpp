// SPDX-License-Identifier: GPL-3.0-or-later
#include "meshing/locate.hpp"

#include <cmath>
#include <random>
#include <stdexcept>

#include "meshing/mesh_section.hpp"
#include "meshing/quality.hpp"
#include "tests/meshing/sections.hpp"
#include "tests/near.hpp"

using namespace coilpull;

namespace {

Mesh two_triangles() {
  Mesh mesh;
  mesh.nodes.resize(2, 4);
  mesh.nodes << 0, 1, 1, 0, 0, 0, 1, 1;
  mesh.triangles.resize(3, 2);
  mesh.triangles << 0, 0, 1, 2, 2, 3;
  return mesh;
}

}  // namespace

TEST_CASE("points inside, on edges, on nodes and outside are placed") {
  const Locator locator(two_triangles());
  const MeshPlace inside = locator.locate({0.75, 0.25});
  CHECK(inside.triangle == 0);
  CHECK(inside.distance == 0);
  CHECK(inside.weights.isApprox(Eigen::Vector3d(0.25, 0.5, 0.25), 1e-15));
  CHECK(locator.locate({0.25, 0.75}).triangle == 1);
  CHECK(locator.locate({0.5, 0.5}).triangle == 0);  // on the shared edge: the lower number
  CHECK(locator.locate({1, 1}).triangle == 0);
  CHECK(locator.locate({0, 1}).triangle == 1);
  const MeshPlace right = locator.locate({1.5, 0.5});
  CHECK(right.triangle == 0);
  CHECK(right.distance == near(0.5, 1e-15));
  CHECK(right.weights.minCoeff() < 0);
  CHECK_THROWS_AS(locator.locate({std::nan(""), 0}), std::invalid_argument);
  CHECK_THROWS_AS(Locator(Mesh{}), std::invalid_argument);
}

TEST_CASE("in a graded mesh the tree finds what a search over all triangles finds") {
  Section section = {{{"ball", ball(0.01, 0)}}, {0, 0.05}, {8e-3, {{{0, 0.01}, {0, 0.01}, 1e-5, 0.2}}}};
  const Mesh mesh = Mesher().mesh(section);
  const Locator locator(mesh);
  std::mt19937 random(7);
  std::uniform_real_distribution<double> unit(0, 1);
  for (int i = 0; i < 500; ++i) {
    const double away = 0.05 * std::pow(unit(random), 4), angle = 3.14 * unit(random);
    const Point at = {away * std::sin(angle), std::min(0.01 + away * std::cos(angle), 0.049)};
    if (std::hypot(at.r, at.z) > 0.045) continue;  // near the half circle chords cut some of it off
    const MeshPlace place = locator.locate(at);
    REQUIRE(place.distance == 0);
    CHECK(place.weights.minCoeff() >= -1e-9);
    Eigen::Vector2d back = Eigen::Vector2d::Zero();
    for (int k = 0; k < 3; ++k) back += place.weights[k] * mesh.nodes.col(mesh.triangles(k, place.triangle));
    CHECK((back - Eigen::Vector2d(at.r, at.z)).norm() < 1e-15);
  }
  // between chord and arc of the half circle: the nearest triangle, a chord's height away at most
  const MeshPlace rim = locator.locate({0.05 * std::sin(1.0), 0.05 * std::cos(1.0)});
  CHECK(rim.distance < 0.05 * (1 - std::cos(3.14159265358979 / 12)));
}

TEST_CASE("quality is 1 for an equilateral triangle, known for a right one, 0 for a flat one") {
  CHECK(triangle_quality({0, 0}, {1, 0}, {0.5, std::sqrt(3) / 2}) == near(1, 1e-14));
  // legs 1: inradius 1 - 1/sqrt 2, circumradius 1/sqrt 2: 2 r/R = 2 (sqrt 2 - 1)
  CHECK(triangle_quality({0, 0}, {1, 0}, {0, 1}) == near(2 * (std::sqrt(2.) - 1), 1e-14));
  CHECK(triangle_quality({0, 0}, {1, 0}, {2, 0}) == 0);
  const MeshQuality found = quality(two_triangles());
  CHECK(found.worst == near(2 * (std::sqrt(2.) - 1), 1e-14));
  CHECK(found.smallest_angle == near(std::atan(1.), 1e-14));
}
