// SPDX-License-Identifier: GPL-3.0-or-later
#include "apps/hysteresis/remanence_bracket.hpp"

#include <doctest/doctest.h>

#include "tests/apps/hand_made_table.hpp"
#include "tests/near.hpp"

using namespace coilpull;

namespace {

DeviceFile bolt_file() {
  return open_device_text(R"([core.bolt]
material = "hardened bolt steel, weak"
cylinder = { radius_mm = 3, from_mm = -20, to_mm = 0 }
[core.plate]
material = { law = "linear", mu_r = 500 }
cylinder = { radius_mm = 8, from_mm = 1, to_mm = 3 }
[coil.drive]
tube = { inner_radius_mm = 5, outer_radius_mm = 9, from_mm = -18, to_mm = -2 }
turns = 100
[motion]
moving = ["plate"]
displacement_mm = [0, 1]
[current]
drive_A = [-1, 1]
)",
                          "d.toml", "");
}

/// The plunger's table with every force raised by so much.
ForceTable raised(double by_N, double sensor_T) {
  ForceTable table = plunger_table();
  for (Measurement& row : table.rows) row.force_N.value += by_N, row.sensors[0].bz_T += sensor_T;
  return table;
}

}  // namespace

TEST_CASE("only steel with a coercive field can stay magnetised, and the current is off") {
  const DeviceFile file = bolt_file();
  REQUIRE(hard_cores(file).size() == 1);
  CHECK(hard_cores(file)[0].name == "bolt");
  CHECK(hard_cores(file)[0].coercive_field_A_per_m == 2500);
  const Device minus = left_magnetised(file, -1);
  CHECK(minus.cores[0].shift_A_per_m == -2500);
  CHECK(minus.cores[1].shift_A_per_m == 0);
  CHECK(minus.currents_A == std::vector<std::vector<double>>{{0}});
  CHECK(left_magnetised(file, 0).cores[0].shift_A_per_m == 0);
}

TEST_CASE("residual force and sensor offset are told where they are largest, with the bars of the force") {
  const RemanenceBracket bracket{{{"bolt", 2500}}, plunger_table(), raised(0.25, 2e-3), raised(-0.5, -1e-3)};
  const std::string text = remanence_text(bracket);
  CHECK(text.find("  bolt: 2500 A/m\n") != std::string::npos);
  CHECK(text.find("no remanence:                    1 +- 0.01 N") != std::string::npos);
  CHECK(text.find("Sensor exit: B_z is off by -1 to 2 mT at 0 mm, at most.") != std::string::npos);
  const std::string csv = remanence_csv(bracket);
  CHECK(
      csv.rfind("displacement_mm,force_N,force_numerical_error_N,force_after_plus_z_N,force_after_minus_z_N,"
                "B_z_exit_T,B_z_exit_after_plus_z_T,B_z_exit_after_minus_z_T\r\n0,1,0.01,1.25,0.5,0.02,0.022,"
                "0.019\r\n",
                0) == 0);
}
