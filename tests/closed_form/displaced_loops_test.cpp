// SPDX-License-Identifier: GPL-3.0-or-later
#include "solver/closed_form/displaced_loops.hpp"

#include <cmath>
#include <initializer_list>

#include "materials/constants.hpp"
#include "tests/near.hpp"

namespace coilpull {

TEST_CASE("loops side by side: on one axis they are Maxwell's, and either may be called the first") {
  const Loop a{0.02, 0}, b{0.013, 0.007};
  CHECK(displaced_mutual_inductance(a, b, 0) == near(mutual_inductance(a, b), 1e-12));
  for (const double offset : {0.004, 0.02, 0.05})
    CHECK(displaced_mutual_inductance(a, b, offset) ==
          near(displaced_mutual_inductance(b, a, offset), 1e-11));
}

TEST_CASE("loops side by side: Neumann's double integral") {
  // M = mu0/(4 pi) integral integral dl.dl'/|x - x'| (Jackson, 3rd ed., eq. 5.157): even spacing on both
  // circles converges exponentially while they stay apart
  const Loop a{0.02, 0}, b{0.013, 0.012};
  const double offset = 0.017;
  const int n = 200;
  double sum = 0;
  for (int k = 0; k < n; ++k)
    for (int l = 0; l < n; ++l) {
      const double s = 2 * pi * k / n, t = 2 * pi * l / n;
      const double dx = a.radius * std::cos(s) - offset - b.radius * std::cos(t);
      const double dy = a.radius * std::sin(s) - b.radius * std::sin(t);
      sum += a.radius * b.radius * std::cos(s - t) / std::sqrt(dx * dx + dy * dy + b.z * b.z);
    }
  const double expected = mu0 / (4 * pi) * sum * (2 * pi / n) * (2 * pi / n);
  CHECK(displaced_mutual_inductance(a, b, offset) == near(expected, 1e-10));
}

TEST_CASE("loops side by side: far apart they are dipoles") {
  // M = mu0/(4 pi) (m1 m2)(3 cos^2 - 1)/R^3 per ampere; next term of relative size (a/R)^2
  const Loop a{0.01, 0}, b{0.01, 0.6};
  const double offset = 0.8, R = 1, m = pi * 0.01 * 0.01;
  const double expected = mu0 / (4 * pi) * m * m * (3 * 0.36 - 1) / (R * R * R);
  CHECK(displaced_mutual_inductance(a, b, offset) == near(expected, 5e-3));
}

}  // namespace coilpull
