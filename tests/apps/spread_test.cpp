// SPDX-License-Identifier: GPL-3.0-or-later
#include "apps/spread/force_spread.hpp"

#include <doctest/doctest.h>

#include <cmath>

#include "apps/device_file/canonical_text.hpp"
#include "apps/spread/input_ranges.hpp"
#include "materials/constants.hpp"
#include "materials/magnetic_law.hpp"
#include "tests/apps/hand_made_table.hpp"
#include "tests/near.hpp"

using namespace coilpull;

namespace {

DeviceFile open(const std::string& more) {
  return open_device_text(R"([core.bolt]
material = "hardened bolt steel, weak"
cylinder = { radius_mm = 3, from_mm = -20, to_mm = 0 }
[core.plate]
material = "demo soft steel"
cylinder = { radius_mm = 8, from_mm = -24, to_mm = -21 }
[magnet.disc]
material = "n42"
temperature_degC = 40
cylinder = { radius_mm = 4, from_mm = 0, to_mm = 5 }
magnetised = "-z"
[magnet.given]
material = { remanence_T = 1, recoil_permeability = 1.1 }
cylinder = { radius_mm = 4, from_mm = 7, to_mm = 9 }
magnetised = "+z"
[motion]
moving = ["disc", "given"]
displacement_mm = [0.06, 3]
)" + more,
                          "d.toml", "");
}

/// The plunger's table with its force times a factor.
InputEffect effect(const std::string& words, double low, double high) {
  InputEffect both{words, {plunger_table(), plunger_table()}};
  for (Measurement& row : both.ends[0].rows) row.force_N.value *= low;
  for (Measurement& row : both.ends[1].rows) row.force_N.value *= high;
  return both;
}

}  // namespace

TEST_CASE("the spread is the sum of what each input takes or adds at the worse end of its range") {
  ForceTable table = plunger_table();
  const std::vector<InputEffect> effects = {effect("one", 0.9, 1.2), effect("two", 1.05, 1.1)};
  add_spread(table, effects);
  const Measurement& push = table.rows[2];  // 7 N
  CHECK(push.spread->low_N == near(7 * 0.9, 1e-12));
  CHECK(push.spread->high_N == near(7 * (1 + 0.2 + 0.1), 1e-12));
  const Measurement& pull = table.rows[12];  // -7 N: a larger factor lowers it
  CHECK(pull.spread->low_N == near(-7 * (1 + 0.2 + 0.1), 1e-12));
  CHECK(pull.spread->high_N == near(-7 * 0.9, 1e-12));
  const std::string text = spread_text(table, effects);
  CHECK(text.find("6.3 to 9.1 N\n  one: -0.7 to +1.4 N\n  two: 0 to +0.7 N\n") != std::string::npos);
}

TEST_CASE("a row that cannot be solved at an end of a range has no spread") {
  ForceTable table = plunger_table();
  std::vector<InputEffect> effects = {effect("one", 0.9, 1.2)};
  effects[0].ends[1].rows[4].force_N.value = std::nan("");
  add_spread(table, effects);
  CHECK(std::isnan(table.rows[4].spread->low_N));
  CHECK(std::isfinite(table.rows[5].spread->low_N));
}

TEST_CASE("ranges are those of the grade, of both bounds of a pair, and the defaults for what states none") {
  const std::vector<InputRange> ranges = input_ranges(open(""));
  REQUIRE(ranges.size() == 6);
  CHECK(ranges[0].words == "remanence of disc, 1.249 to 1.288 T");  // 1.28 and 1.32 T at 20 degC, times 0.976
  CHECK(ranges[0].ends[0].magnets[0].law.remanence_z_T == near(-1.28 * 0.976, 1e-12));
  CHECK(ranges[0].ends[1].magnets[0].law.remanence_z_T == near(-1.32 * 0.976, 1e-12));
  CHECK(ranges[1].ends[0].magnets[1].law.remanence_z_T == near(0.97, 1e-12));
  CHECK(ranges[2].words == "temperature of the magnets, -+ 15 K");
  CHECK(ranges[2].ends[1].magnets[0].law.remanence_z_T == near(-1.3 * (1 - 0.0012 * 35), 1e-12));
  CHECK(ranges[2].ends[1].magnets[1].law.remanence_z_T == 1);  // given numbers know no temperature
  const double weak = flux_density(ranges[3].ends[0].cores[0].law, 1000),
               strong = flux_density(ranges[3].ends[1].cores[0].law, 1000);
  CHECK(weak == near(mu0 * 1000 + 1.9 * 1000 / 5000, 1e-9));
  CHECK(strong == near(mu0 * 1000 + 2.1 * 1000 / 2000, 1e-9));
  CHECK(flux_density(ranges[4].ends[1].cores[1].law, 1000) - mu0 * 1000 ==
        near(1.03 * (1.43 - mu0 * 1000), 1e-6));  // a point of its table
  CHECK(ranges[5].words == "position, -+ 0.05 mm");
  CHECK(ranges[5].ends[0].displacements[0] ==
        near(0.03e-3, 1e-9));  // half of the clearance of 0.06 mm is left
  CHECK(ranges[5].ends[1].displacements[1] == near(3.05e-3, 1e-12));
}

TEST_CASE("ranges that the file states are taken, and 0 takes an input out") {
  const std::string stated =
      "[spread]\nposition_mm = 0\ntemperature_K = 0\nremanence_percent = 1\npolarization_percent = 0\n";
  const std::vector<InputRange> ranges = input_ranges(open(stated));
  REQUIRE(ranges.size() == 3);  // two magnets, and the pair that no percentage rules
  CHECK(ranges[0].ends[0].magnets[0].law.remanence_z_T == near(-1.3 * 0.976 * 0.99, 1e-12));
  const std::string canonical = canonical_text(open(stated));
  CHECK(canonical.find("\n[spread]\nposition_mm = 0\ntemperature_K = 0\nremanence_percent = 1\n"
                       "polarization_percent = 0\n") != std::string::npos);
  CHECK(canonical_text(open("")).find("[spread]") == std::string::npos);
}
