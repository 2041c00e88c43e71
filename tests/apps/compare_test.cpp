// SPDX-License-Identifier: GPL-3.0-or-later
#include "apps/comparison/compare.hpp"

#include <doctest/doctest.h>

#include <cmath>

#include "apps/comparison/candidates.hpp"
#include "apps/output/comparison_text.hpp"
#include "materials/constants.hpp"
#include "materials/magnetic_law.hpp"
#include "tests/apps/hand_made_table.hpp"
#include "tests/near.hpp"

using namespace coilpull;

namespace {

const char* const device_text_with_stack = R"([core.sleeve]
material = "demo soft steel"
stacking_factor = 0.95
tube = { inner_radius_mm = 5.5, outer_radius_mm = 7, from_mm = -14, to_mm = 14 }
[magnet.plunger]
material = "n42"
temperature_degC = 60
cylinder = { radius_mm = 4.5, from_mm = -30, to_mm = -20 }
magnetised = "-z"
[motion]
moving = ["plunger"]
displacement_mm = [0, 5]
)";

DeviceFile device_file() { return open_device_text(device_text_with_stack, "d.toml", ""); }

/// A device whose only core is full, at 90 % of 2 T, from B = 1.8 T + mu0 H on; H there is 9 half fields.
Device device_with_core() {
  Device device;
  device.cores = {{"sleeve", rectangle(0, 1e-3, 0, 1e-3), FroehlichLaw(2, 100), "invented"}};
  device.circuits = {"drive"};
  return device;
}

SolvedCandidate solved(const std::string& name, double factor) {
  SolvedCandidate each{name, {device_with_core()}, {plunger_table()}};
  for (Measurement& row : each.tables.front().rows) row.force_N.value *= factor;
  return each;
}

std::string refusal(const std::string& change) {
  try {
    candidates_of(device_file(), {change});
  } catch (const BadDevice& bad) {
    return bad.what();
  }
  return "accepted";
}

}  // namespace

TEST_CASE("the work of the stroke is the area under the force where it pushes one way") {
  // Force 2 (2 - x) + 3 I at x = 0 .. 4 mm: at 1 A it is 7, 5, 3, 1, -1 N. Trapezoids of the part above zero:
  // 6 + 4 + 2 + 0.5 = 12.5 mJ. At -1 A pulling, -1, -3, -5, -7 after 1: 0.5 + 2 + 4 + 6, the same.
  const Measured work = *stroke_work(plunger_table());
  CHECK(work.value == near(12.5e-3, 1e-12));
  CHECK(work.error == near(4 * 1e-3 * 0.01, 1e-12));
}

TEST_CASE("the core is full at the current where one per cent of it passes 90 % of its saturation") {
  const double full_T = 1.8 + mu0 * 900;
  ForceTable table = plunger_table();
  for (Measurement& row : table.rows) row.b_p99_T = {full_T - 0.3 + 0.5 * std::abs(row.currents_A[0])};
  CHECK(*full_current(device_with_core(), table) == near(0.6, 1e-9));
  for (Measurement& row : table.rows) row.b_p99_T = {full_T + 0.1};
  CHECK(*full_current(device_with_core(), table) == 0);
  for (Measurement& row : table.rows) row.b_p99_T = {full_T - 1};
  CHECK_FALSE(full_current(device_with_core(), table).has_value());
}

TEST_CASE("a difference inside the bars is called none, one outside is ranked") {
  CHECK_FALSE(differ({1.0, 1.2}, {1.1, 1.4}));
  CHECK(differ({1.0, 1.2}, {1.21, 1.4}));
  const std::string text =
      comparison_text({solved("as in the file", 1), solved("a", 1.001), solved("b", 1.5)}, true);
  const auto has = [&](const char* words) { return text.find(words) != std::string::npos; };
  CHECK(has("  1. b                                10.5"));
  CHECK(has("  2. a                                7.007"));
  INFO(text);
  CHECK(has("  3. as in the file                   7"));
  const std::string peaks =
      text.substr(text.find("Strongest force anywhere"),
                  text.find("Strongest force with") - text.find("Strongest force anywhere"));
  CHECK(peaks.find("difference to the one above: none") >
        peaks.find("as in the file"));  // said once, of 7.007 and 7
}

TEST_CASE("of a pair of bounds the range from one to the other is told") {
  SolvedCandidate pair = solved("bolt", 1);
  pair.devices.push_back(pair.devices.front());
  pair.tables.push_back(solved("strong", 1.2).tables.front());
  const Merits merits = merits_of(pair);
  CHECK(merits.peak_N->low == near(6.99, 1e-12));
  CHECK(merits.peak_N->high == near(8.41, 1e-12));
  const std::string text = comparison_text({solved("as in the file", 1), pair}, true);
  CHECK(text.find("bolt                             6.99 to 8.41") != std::string::npos);
  CHECK(text.find("only two bounds are known") != std::string::npos);
  const std::string csv = comparison_csv({solved("as in the file", 1), pair});
  CHECK(csv.find("bolt,weak,0,-1,1,0.01,0,none,ok\r\n") != std::string::npos);
  CHECK(csv.find("bolt,strong,0,-1,1.2,0.01,0.19999999999999996,higher,ok\r\n") != std::string::npos);
}

TEST_CASE("the device as it is comes first, then every change, with the stack and the temperature kept") {
  const std::vector<Candidate> all = candidates_of(
      device_file(), {"sleeve=team 13 steel", "sleeve=Hardened bolt steel", "sleeve=none", "plunger=n35"});
  REQUIRE(all.size() == 5);
  CHECK(all[0].name == "as in the file");
  CHECK(all[1].devices.size() == 1);
  CHECK(all[2].devices.size() == 2);
  CHECK(all[3].name == "no sleeve");
  CHECK(is_linear(all[3].devices[0].cores[0].law));
  const double h = 1934, j = 1.60 - mu0 * h;  // a point of the TEAM 13 table
  CHECK(flux_density(all[1].devices[0].cores[0].law, h) == near(mu0 * h + 0.95 * j, 1e-9));
  CHECK(flux_density(all[2].devices[1].cores[0].law, h) > flux_density(all[2].devices[0].cores[0].law, h));
  CHECK(all[4].devices[0].magnets[0].law.remanence_z_T == near(-1.195 * (1 - 0.0012 * 40), 1e-12));
}

TEST_CASE("a change of nothing, of no part, or to no material is refused") {
  const std::string advice =
      "\n  Write PART=MATERIAL, for example sleeve=\"team 13 steel\". Parts: sleeve, plunger, or all for "
      "every core.";
  CHECK(refusal("sleeve") == "--with sleeve: is no PART=MATERIAL." + advice);
  CHECK(refusal("slave=none") == "--with slave=none: there is no such core or magnet." + advice);
  CHECK(
      refusal("sleeve=demo soft stel") ==
      "--with sleeve=demo soft stel: no steel called \"demo soft stel\"; did you mean \"demo soft steel\"?" +
          advice);
}
