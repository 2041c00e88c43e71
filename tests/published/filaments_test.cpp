// SPDX-License-Identifier: GPL-3.0-or-later
// Figures: data/published/filaments.csv (Maxwell's formula, art. 701; the first row is also in print).
// A ring becomes a winding of square section of a fiftieth of its radius. Its finite section is not left to
// the tolerance: the mean of Maxwell's formula over both sections is what the field must give.
#include <cmath>

#include "apps/validation/fe_path.hpp"
#include "tests/near.hpp"
#include "tests/published/rings.hpp"
#include "tests/read_csv.hpp"

using namespace coilpull;

namespace {
Box thin(double radius, double z) {
  const double half = 0.01 * radius;
  return {radius - half, radius + half, z - half, z + half};
}
}  // namespace

TEST_CASE("two thin rings have Maxwell's mutual inductance, and its slope is their force") {
  const CsvFile table = read_csv("data/published/filaments.csv");
  FePath path(3, {2.0});
  for (std::size_t i = 0; i < table.records.size(); ++i) {
    const double a = table.number_at(i, "radius1_m"), b = table.number_at(i, "radius2_m");
    const double d = table.number_at(i, "spacing_m");
    const double m = table.number_at(i, "M_H"), slope = table.number_at(i, "dM_dd_H_per_m");
    INFO("radii " << a << " and " << b << " m, spacing " << d << " m");
    CHECK(ring_inductance(a, b, d) == near(m, 1e-12));  // 13 digits printed
    if (d > 0) CHECK(ring_inductance_slope(a, b, d) == near(slope, 1e-12));

    const Box lower = thin(a, 0), upper = thin(b, d);
    const auto solved = path.solve(in_air({coil_of("lower", lower, 1), coil_of("upper", upper, 1)}), 0,
                                   {{1, 0}, {0, 1}, {1, 1}, {1, -1}});
    const double mean = mean_over_sections(ring_inductance, lower, upper, 5);
    CHECK(mean == near(m, 2e-4));
    CHECK(solved[0].linkage_Wb[1] == near(mean, 3e-5));                     // left: 7e-6
    CHECK(solved[1].linkage_Wb[0] == near(solved[0].linkage_Wb[1], 1e-9));  // reciprocity, to rounding
    // The pull between the rings is half the difference between both senses of one current; the force itself
    // holds what a ring pulls on itself, an error of the mesh, too: a fraction of the natural scale M/a.
    const double mean_slope = d > 0 ? mean_over_sections(ring_inductance_slope, lower, upper, 5) : 0;
    if (d > 0) CHECK(0.5 * (solved[2].force_N - solved[3].force_N) == near(mean_slope, 1e-4));  // left: 3e-5
    CHECK(std::abs(solved[2].force_N - mean_slope) < 1e-3 * m / a);
  }
}
