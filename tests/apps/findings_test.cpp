// SPDX-License-Identifier: GPL-3.0-or-later
#include "apps/output/findings.hpp"

#include <doctest/doctest.h>

#include "tests/apps/hand_made_table.hpp"
#include "tests/near.hpp"

using namespace coilpull;

namespace {
constexpr double rounding = 1e-12;  // a handful of operations in double precision
}

TEST_CASE("the strongest push, pull and rest force are found where they are") {
  const ForceTable table = plunger_table();
  CHECK(strongest_push(table)->force_N.value == 7);
  CHECK(strongest_push(table)->displacement == 0);
  CHECK(strongest_pull(table)->force_N.value == -7);
  CHECK(strongest_pull(table)->displacement == near(4e-3, rounding));
  CHECK(strongest_current_off(table)->force_N.value == 4);
}

TEST_CASE("a force that is nowhere negative has no strongest pull") {
  ForceTable table = plunger_table();
  for (Measurement& row : table.rows) row.force_N.value = 1;
  CHECK(strongest_pull(table) == nullptr);
}

TEST_CASE("the force changes sign where the straight line through its rows says, and pushes back there") {
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
  CHECK(strongest_pull(table)->force_N.value == -7);
}

TEST_CASE("the effect of a circuit compares its largest currents with none, where they do most") {
  ForceTable table = plunger_table();
  table.rows[7].force_N.value = 1;   // 2 mm, 0 A
  table.rows[8].force_N.value = 10;  // 2 mm, +1 A
  const auto effect = largest_effect(table, 0);
  REQUIRE(effect);
  CHECK(effect->off->force_N.value == 1);
  CHECK(effect->positive->force_N.value == 10);
  CHECK(effect->negative->currents_A[0] == -1);
  CHECK(effect->positive->displacement == near(2e-3, rounding));
}

TEST_CASE("a table of one current cannot tell what the current does") {
  ForceTable table = plunger_table();
  table.currents_per_displacement = 1;
  table.rows.resize(1);
  CHECK(!largest_effect(table, 0));
}
