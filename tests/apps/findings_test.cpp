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
