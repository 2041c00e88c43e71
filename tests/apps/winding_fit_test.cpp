// SPDX-License-Identifier: GPL-3.0-or-later
#include "apps/device_file/winding_fit.hpp"

#include <cmath>
#include <initializer_list>

#include "tests/near.hpp"

namespace coilpull {

TEST_CASE("a window drawn as a whole number of wires holds them all") {
  CHECK(turns_in_rows({3e-3, 10e-3}, 1e-3) == 30);
  CHECK(turns_in_rows({0.3, 0.7}, 0.1) == 21);  // 0.3 / 0.1 and 0.7 / 0.1 are just below 3 and 7 in binary
}

TEST_CASE("a window narrower than the wire holds none") {
  CHECK(turns_nested({0.9e-3, 10e-3}, 1e-3) == 0);
  CHECK(turns_nested({10e-3, 0.9e-3}, 1e-3) == 0);
}

TEST_CASE(
    "nested layers: a layer more once 1 + n sqrt(3)/2 diameters are there, every second layer one turn "
    "less") {
  // 8 diameters: 1 + 7/(sqrt(3)/2) = 1 + 8.08 layers, 9; rows of 10 and 9: 5 * 10 + 4 * 9 = 86 against 80 in
  // rows
  CHECK(turns_nested({8e-3, 10e-3}, 1e-3) == 86);
  // half a diameter to spare along the layer: no turn is lost, 9 * 10
  CHECK(turns_nested({8e-3, 10.5e-3}, 1e-3) == 90);
  // two layers only: nesting gains nothing, and the rows are kept
  CHECK(turns_nested({2e-3, 10e-3}, 1e-3) == 20);
}

TEST_CASE("no winding beats Oler's bound for equal circles in a rectangle") {
  // Oler, Acta Math. 105 (1961) 19: n <= 2/sqrt(3) A + P/2 + 1 for the rectangle of the centres, in
  // diameters.
  for (double radial = 1; radial < 12; radial += 0.37)
    for (double axial = 1; axial < 40; axial += 0.91) {
      const double w = radial - 1, h = axial - 1;
      CHECK(turns_nested({radial, axial}, 1) <= 2 / std::sqrt(3.0) * w * h + w + h + 1 + 1e-9);
    }
}

TEST_CASE("the thickest wire for some turns just holds them") {
  const Window window{5e-3, 24e-3};
  for (const double turns : {1.0, 7.0, 180.0, 400.0, 5000.0}) {
    const double thickest = thickest_for(window, turns, Packing::nested);
    CHECK(turns_nested(window, thickest) >= turns);
    CHECK(turns_nested(window, 1.0001 * thickest) < turns);
  }
}

}  // namespace coilpull
