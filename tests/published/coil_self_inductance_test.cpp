// SPDX-License-Identifier: GPL-3.0-or-later
// Figures: data/published/coil_self_inductance.csv (Brooks' coil and others; two independent routes).
#include "apps/validation/fe_path.hpp"
#include "tests/near.hpp"
#include "tests/published/rings.hpp"
#include "tests/read_csv.hpp"

using namespace coilpull;

TEST_CASE("a coil in air has the self-inductance of its section, and half of L I^2 is its coenergy") {
  const CsvFile table = read_csv("data/published/coil_self_inductance.csv");
  FePath path(3, {2.0});
  for (std::size_t i = 0; i < table.records.size(); ++i) {
    const auto number = [&](const char* name) { return table.number_at(i, name); };
    INFO(table.text_at(i, "coil"));
    const double half = 0.5 * number("length_m"), inductance = number("L_H"), turns = number("N");
    const Box section = {number("Ri_m"), number("Ro_m"), -half, half};
    CHECK(turns * turns * section_self_inductance(section) == near(inductance, 1e-11));  // 13 digits printed

    const Solved solved = path.solve(in_air({coil_of("coil", section, turns)}), 0, {{2}}).front();
    CHECK(solved.linkage_Wb[0] == near(2 * inductance, 2e-5));  // left: 6e-6
    CHECK(solved.coenergy_J == near(0.5 * inductance * 4, 2e-5));
  }
}
