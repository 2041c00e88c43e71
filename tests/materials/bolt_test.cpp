// SPDX-License-Identifier: GPL-3.0-or-later
#include "materials/bolt.hpp"

#include <cmath>

#include "materials/bad_material.hpp"
#include "materials/constants.hpp"
#include "tests/near.hpp"

using namespace coilpull;

TEST_CASE("the cylinder that stands for a thread has its mean section") {
  // The profile of ISO 68-1 summed in a thousand slices: crest flat P/8, flank 5P/16, root flat P/4, flank
  // 5P/16.
  const double d = 8e-3, pitch = 1.25e-3, d1 = d - 5 * std::sqrt(3.0) / 8 * pitch;
  const int slices = 16000;
  double sum = 0;
  for (int i = 0; i < slices; ++i) {
    const double x = (i + 0.5) / slices;  // of a pitch
    const double along = x < 2.0 / 16    ? 0
                         : x < 7.0 / 16  ? (x - 2.0 / 16) / (5.0 / 16)
                         : x < 11.0 / 16 ? 1
                                         : (1 - x) / (5.0 / 16);
    const double here = d + (d1 - d) * along;
    sum += here * here / slices;
  }
  CHECK(threaded_rod_diameter(d, pitch) == near(std::sqrt(sum), 1e-6));
  CHECK(threaded_rod_diameter(d, pitch) == near(d - 0.594 * pitch, 1e-3));
}

TEST_CASE("the cylinder that stands for a hexagon has its section") {
  const double s = 13e-3, d = hexagon_head_diameter(s);  // area of a hexagon: sqrt(3)/2 s^2
  CHECK(pi * d * d / 4 == near(std::sqrt(3.0) / 2 * s * s, 1e-13));
}

TEST_CASE("a thread as coarse as its bolt is refused") {
  CHECK_THROWS_WITH_AS(
      threaded_rod_diameter(8e-3, 5e-3),
      "pitch = 0.005: must be at most 0.004: no thread is that coarse; are both in the same unit?",
      BadMaterial);
}
