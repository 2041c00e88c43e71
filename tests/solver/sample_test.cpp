// SPDX-License-Identifier: GPL-3.0-or-later
#include "solver/field/sample.hpp"

#include <doctest/doctest.h>

#include <cmath>

#include "tests/near.hpp"
#include "tests/solver/magnet_ball.hpp"

using namespace coilpull;

TEST_CASE(
    "a sample of a magnetised ball has two thirds of its remanence everywhere inside, up to its round "
    "surface") {
  // Jackson, Classical Electrodynamics, 3rd ed., sec. 5.10: B_inside = (2/3) mu0 M, psi = r^2 B / 2.
  const FieldSample all = sample(field_of_ball(), 5);
  REQUIRE(all.at.cols() == all.triangles() * all.per_triangle());
  double farthest = 0;
  for (Eigen::Index k = 0; k < all.at.cols(); ++k) {
    if (all.region_of[k / all.per_triangle()] != 0) continue;
    farthest = std::max(farthest, all.at.col(k).norm());
    CHECK(all.b(1, k) ==
          near(0.8, 1e-3));  // pointwise at the surface of the default mesh; its mean is far better
    CHECK(std::abs(all.b(0, k)) < 0.8e-3);
    CHECK(std::abs(all.flux[k] - 0.4 * all.at(0, k) * all.at(0, k)) < 1e-4 * 0.4 * ball_radius * ball_radius);
  }
  CHECK(farthest == near(ball_radius, 1e-6));  // chords alone would bring points inside it to 1 - 1e-2
}

TEST_CASE(
    "a sample agrees with the field asked for point by point, and its triangles run counter-clockwise") {
  const Field field = field_of_ball();
  const FieldSample all = sample(field, 3);
  const int centre = lattice_point(3, 1, 1);
  for (Eigen::Index t = 0; t < all.triangles(); t += 7) {
    const Eigen::Index first = t * all.per_triangle(), k = first + centre;
    const Point at{all.at(0, k), all.at(1, k)};
    CHECK(all.a_phi[k] ==
          near(vector_potential(field, at), 1e-8));  // where it is found by Newton, to 1e-14 of a triangle
    CHECK(all.b(1, k) == near(flux_density(field, at).z, 1e-6));
    const Eigen::Vector2d a = all.at.col(first + lattice_point(3, 3, 0)) - all.at.col(first);
    const Eigen::Vector2d b = all.at.col(first + lattice_point(3, 0, 3)) - all.at.col(first);
    CHECK(a.x() * b.y() - a.y() * b.x() > 0);
  }
}

TEST_CASE("a lattice of no divisions is refused") {
  const Field field = field_of_ball();
  CHECK_THROWS_AS(sample(field, 0), std::invalid_argument);
  CHECK_THROWS_AS(sample(field, 33), std::invalid_argument);
}
