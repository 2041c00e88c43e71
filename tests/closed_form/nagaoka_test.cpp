// SPDX-License-Identifier: GPL-3.0-or-later
#include "solver/closed_form/nagaoka.hpp"

#include <cmath>
#include <initializer_list>

#include "materials/constants.hpp"
#include "solver/closed_form/current_sheet.hpp"
#include "tests/closed_form/printed.hpp"
#include "tests/near.hpp"

using namespace coilpull;

TEST_CASE(
    "Nagaoka's coefficient has every digit of the recomputed table, and the printed one within its errors") {
  // data/published/nagaoka.csv; the last column lists where the table of 1909 itself is off.
  const CsvFile table = read_csv("data/published/nagaoka.csv");
  for (std::size_t i = 0; i < table.records.size(); ++i) {
    const double x = table.number_at(i, "D_over_l"), k = nagaoka_coefficient(x);
    INFO("D/l = " << x << ", found " << k);
    CHECK(printed(table, i, "K_exact").agrees(k));
    if (table.text_at(i, "K_published").empty()) continue;
    const double known_error = table.number_at(i, "published_minus_exact");
    CHECK(std::abs(table.number_at(i, "K_published") - k - known_error) <
          6e-8 + 0.06 * std::abs(known_error));
  }
}

TEST_CASE("the self-inductance of a sheet by corner sums is the one by Nagaoka's coefficient") {
  // The corner sum is a difference of terms larger by x^2: that is what rounding leaves of it.
  for (const double x : {0.05, 0.5, 0.999, 1.001, 3.0, 40.0, 1000.0}) {
    const double radius = 0.01, length = 2 * radius / x;
    const CurrentSheet sheet{radius, -0.2 * length, 0.8 * length};
    CHECK(mutual_inductance(sheet, sheet) ==
          near(solenoid_inductance(radius, length, 1), 1e-15 * (20 + x * x)));
  }
}

TEST_CASE("a very short solenoid has the inductance of a flat ring") {
  // L = mu0 a (ln(8 a / l) - 1/2): Maxwell, Treatise, art. 706, a mean distance of l exp(-3/2) in
  // mu0 a (ln(8 a / R) - 2); the next term is smaller by (l/a)^2.
  const double radius = 0.03, length = 1e-9;
  CHECK(solenoid_inductance(radius, length, 1) ==
        near(mu0 * radius * (std::log(8 * radius / length) - 0.5), 1e-13));
}
