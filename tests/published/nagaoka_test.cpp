// SPDX-License-Identifier: GPL-3.0-or-later
// Figures: data/published/nagaoka.csv (Lorenz' formula for a current sheet; printed table of Nagaoka 1909).
// The sheet becomes a winding of a twenty-fifth of its radius. What the thickness takes away, about
// (thickness / 3 radius) of L, is worked out by quadrature of Maxwell's formula and put back.
#include "apps/validation/fe_path.hpp"
#include "materials/constants.hpp"
#include "tests/near.hpp"
#include "tests/published/rings.hpp"
#include "tests/read_csv.hpp"

using namespace coilpull;

TEST_CASE("a thin solenoid has Nagaoka's coefficient") {
  const CsvFile table = read_csv("data/published/nagaoka.csv");
  const double radius = 0.010;
  FePath path(3, {2.0});
  int rows_checked = 0;
  for (const double x : {0.25, 0.5, 1.0, 2.0, 5.0, 10.0})
    for (std::size_t i = 0; i < table.records.size(); ++i) {
      if (table.number_at(i, "D_over_l") != x) continue;
      INFO("diameter over length " << x);
      const double length = 2 * radius / x, exact = table.number_at(i, "K_exact");
      const double per_k = mu0 * pi * radius * radius / length;
      CHECK(sheet_self_inductance(radius, length) == near(per_k * exact, 1e-9));

      const Box section = {0.98 * radius, 1.02 * radius, -0.5 * length, 0.5 * length};
      const double thickness = section_self_inductance(section) / sheet_self_inductance(radius, length);
      const Solved solved = path.solve(in_air({coil_of("sheet", section, 1)}), 0, {{1}}).front();
      CHECK(solved.linkage_Wb[0] / thickness / per_k == near(exact, 2e-5));
      CHECK(solved.linkage_Wb[0] / thickness / per_k ==
            near(table.number_at(i, "K_published"), 1e-4));  // its own error: 4e-5
      ++rows_checked;
    }
  CHECK(rows_checked == 6);
}
