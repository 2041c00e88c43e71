// SPDX-License-Identifier: GPL-3.0-or-later
#include "materials/scaled_law.hpp"

#include <doctest/doctest.h>

#include "materials/constants.hpp"
#include "tests/materials/every_law.hpp"
#include "tests/near.hpp"

using namespace coilpull;

TEST_CASE("a law with its polarization multiplied has the factor times J at every field") {
  for (const ListedLaw& entry : every_law())
    for (const double factor : {0.8, 1.05}) {
      INFO(entry.name << " times " << factor);
      const std::optional<SoftLaw> scaled = with_polarization(entry.law, factor);
      if (std::holds_alternative<BrauerLaw>(entry.law)) {
        CHECK_FALSE(scaled.has_value());  // H(B) of that form does not keep it
        continue;
      }
      REQUIRE(scaled.has_value());
      for (const double h : {3.0, 60.0, 700.0, 2e4, 3e5}) {
        const double of_air = mu0 * h, j = flux_density(entry.law, h) - of_air;
        // formulas: both inverted to rounding; a curve: a cubic through scaled points is another cubic, by
        // up to 2.8 % between the points of a curve that has four
        CHECK(flux_density(*scaled, h) - of_air ==
              near(factor * j, std::holds_alternative<BhCurve>(entry.law) ? 0.03 : 1e-8));
      }
    }
}
