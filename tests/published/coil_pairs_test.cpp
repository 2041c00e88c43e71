// SPDX-License-Identifier: GPL-3.0-or-later
// Figures: data/published/coil_pairs.csv (two equal coils of rectangular section; two independent routes).
// Half the difference between both senses of one current leaves the pull between the coils; what a coil pulls
// on itself, an error of the mesh, is in the force alone and weighs most where the coils are far apart.
#include <algorithm>
#include <cmath>

#include "apps/validation/fe_path.hpp"
#include "tests/near.hpp"
#include "tests/read_csv.hpp"

using namespace coilpull;

TEST_CASE("two thick coils pull with the product of their currents times the slope of M") {
  const CsvFile table = read_csv("data/published/coil_pairs.csv");
  FePath path(3, {2.0});
  double peak = 0;
  for (std::size_t i = 0; i < table.records.size(); ++i)
    peak = std::max(peak, std::abs(table.number_at(i, "dM_dgap_H_per_m")));
  for (std::size_t i = 0; i < table.records.size(); ++i) {
    const auto number = [&](const char* name) { return table.number_at(i, name); };
    const double gap = number("gap_m"), l1 = number("l1_m"), l2 = number("l2_m");
    INFO("gap " << gap << " m");
    const Device pair = in_air({coil_of("lower", {number("R1i_m"), number("R1o_m"), -l1, 0}, number("N1")),
                                coil_of("upper", {number("R2i_m"), number("R2o_m"), 0, l2}, number("N2"))});
    const auto solved = path.solve(pair, gap, {{1, 0}, {2, 3}, {2, -3}});
    CHECK(solved[0].linkage_Wb[1] == near(number("M_H"), 1e-5));  // left: 1e-6
    CHECK(solved[1].linkage_Wb[0] == near(2 * solved[0].linkage_Wb[0] + 3 * number("M_H"), 1e-5));
    CHECK((solved[1].force_N - solved[2].force_N) / 12 ==
          near(number("dM_dgap_H_per_m"), 1e-5));                                      // left: 2e-6
    CHECK(std::abs(solved[1].force_N / 6 - number("dM_dgap_H_per_m")) < 2e-5 * peak);  // left: 3e-6
  }
}
