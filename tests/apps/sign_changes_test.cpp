// SPDX-License-Identifier: GPL-3.0-or-later
#include "apps/output/sign_changes.hpp"

#include <doctest/doctest.h>

#include <algorithm>
#include <cmath>

#include "tests/apps/hand_made_table.hpp"
#include "tests/near.hpp"

using namespace coilpull;

namespace {

constexpr double rounding = 1e-12;  // a handful of operations in double precision

/// Rows of one current whose force is this function of the displacement in mm, each with this bar.
template <class Force>
ForceTable table_of(const std::vector<double>& displacements_mm, const Force& force_N, double bar_N) {
  ForceTable table;
  table.currents_per_displacement = 1;
  for (const double mm : displacements_mm) {
    Measurement row{};
    row.displacement = 1e-3 * mm;
    row.force_N = {force_N(mm), bar_N};
    table.rows.push_back(row);
  }
  return table;
}

}  // namespace

TEST_CASE("the force changes sign where the curve through its rows says, and pushes back there") {
  const ForceTable table = plunger_table();
  const double expected[] = {0.5e-3, 2e-3, 3.5e-3};
  for (std::size_t current = 0; current < 3; ++current) {
    const std::vector<SignChange> changes = sign_changes(table, current);
    REQUIRE(changes.size() == 1);
    CHECK(changes[0].displacement.value == near(expected[current], rounding));
    CHECK(changes[0].displacement.error == near(5e-6, rounding));  // 0.01 N over 2 N/mm
    CHECK(changes[0].holds);
  }
}

TEST_CASE("a rising force gives a turning point, also when the displacements fall") {
  ForceTable table = plunger_table();
  for (Measurement& row : table.rows) row.displacement = -row.displacement;
  const std::vector<SignChange> changes = sign_changes(table, 0);
  REQUIRE(changes.size() == 1);
  CHECK(changes[0].displacement.value == near(-0.5e-3, rounding));
  CHECK(!changes[0].holds);
}

TEST_CASE("noise within the error bars is no change of sign") {
  ForceTable table = plunger_table();
  for (std::size_t i = 0; i < table.rows.size(); ++i)
    table.rows[i].force_N = {i % 2 == 0 ? 1e-3 : -1e-3, 2e-3};
  for (std::size_t current = 0; current < 3; ++current) CHECK(sign_changes(table, current).empty());
}

TEST_CASE("a lost row is passed over") {
  const ForceTable table = plunger_table_with_a_lost_row();
  const std::vector<SignChange> changes = sign_changes(table, 2);
  CHECK(changes.empty());  // the zero at 3.5 mm has no row beyond it any more
}

TEST_CASE("a force known at two rows only may be zero anywhere between them") {
  const ForceTable table = table_of(
      {0, 4}, [](double mm) { return 3 - mm; }, 1e-6);
  const std::vector<SignChange> changes = sign_changes(table, 0);
  REQUIRE(changes.size() == 1);
  CHECK(changes[0].displacement.value == near(3e-3, 1e-9));
  CHECK(changes[0].displacement.error >= 3e-3);
}

TEST_CASE(
    "the zero of a curved force lies inside its bar on coarse tables, and the bar shrinks with the step") {
  // Force on a magnetic dipole on the axis of a loop, about z / (1 + z^2)^(5/2) (from the field of a loop,
  // derived twice, extremes at +- 1/2), lifted so that its zero is not in the middle of anything: known by
  // bisection.
  const auto force = [](double mm) { return mm / std::pow(1 + mm * mm, 2.5) - 0.05; };
  double low = 0, high = 0.1;
  for (int i = 0; i < 60; ++i) (force(0.5 * (low + high)) < 0 ? low : high) = 0.5 * (low + high);
  double widest[2] = {0, 0};
  for (const int fineness : {0, 1})
    for (int shift = 0; shift < 20; ++shift) {
      const double step = fineness == 0 ? 0.4 : 0.2;
      std::vector<double> places;
      for (int i = -6; i <= 8; ++i) places.push_back(step * (i + shift / 20.0));
      INFO("step " << step << ", shift " << shift);
      for (const SignChange& change : sign_changes(table_of(places, force, 1e-9), 0)) {
        if (change.holds) continue;
        const double error = std::abs(change.displacement.value - 1e-3 * low);
        CHECK(error <= change.displacement.error);
        widest[fineness] = std::max(widest[fineness], change.displacement.error);
      }
    }
  CHECK(widest[0] > 0);
  CHECK(widest[1] < 0.4 * widest[0]);
}
