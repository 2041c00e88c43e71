// SPDX-License-Identifier: GPL-3.0-or-later
// The canonical text of a device file says the same device, and only one text does.
#include "apps/device_file/canonical_text.hpp"

#include <filesystem>
#include <random>
#include <string>
#include <vector>

#include "apps/device_file/exact_text.hpp"
#include "materials/constants.hpp"
#include "tests/apps/same_device.hpp"
#include "tests/near.hpp"

namespace coilpull {

namespace {

namespace fs = std::filesystem;

void check_reads_back(const DeviceFile& file, const fs::path& folder) {
  const std::string words = canonical_text(file);
  INFO(words);
  const DeviceFile again = open_device_text(words, "canonical.toml", folder);
  check_same(again.device, file.device);
  CHECK(canonical_text(again) == words);
}

DeviceFile open(const std::string& text) { return open_device_text(text, "test.toml", ""); }

const std::string iron =
    "material = { law = \"froehlich\", saturation_polarization_T = 2.1, "
    "half_field_A_per_m = 500 }\n";

}  // namespace

TEST_CASE("every example device reads back from its canonical text, to the last bit") {
  const fs::path devices = fs::path(COILPULL_SOURCE_DIR) / "data/devices";
  int seen = 0;
  for (const auto& entry : fs::directory_iterator(devices)) {
    if (entry.path().extension() != ".toml") continue;
    INFO(entry.path().filename().string());
    check_reads_back(open_device_file(entry.path()), devices);
    ++seen;
  }
  CHECK(seen >= 3);
}

TEST_CASE("inches, gauges, arcs, tips, angles, tables, sensors and odd titles read back as well") {
  check_reads_back(open(R"(title = "a \"quoted\" title,\ttab and \\ in it"
tolerance = 3e-4
[core.ball]
material = { law = "brauer", k1 = 49.4, k2 = 1.46, k3 = 520.6 }
ball = { radius_in = 0.3, centre_in = 0.7 }
[core.cone]
material = { h_A_per_m = [0, 100, 1000, 20000], b_T = [0, 0.31, 1.37, 1.93], saturation_polarization_T = 2.1 }
cone = { from_radius_mm = 4.1, to_radius_mm = 1.3, from_mm = 21, to_mm = 33.7, fillet_mm = 0.3 }
[core.turned]
)" + iron + R"(
profile = [{ diameter_in = 0.2, z_mm = 50 }, { r_mm = 9.1, z_mm = 50, fillet_in = 0.01 }, { r_mm = 9.2, z_mm = 55 },
  { r_mm = 7.7, z_mm = 61.3, concave_radius_mm = 8.8 }, { r_mm = 3.3, z_mm = 63, convex_radius_mm = 30 },
  { r_mm = 2.4, z_mm = 55, through_r_mm = 2.2, through_z_mm = 59 }]
[coil.a]
tube = { inner_diameter_in = 0.9, outer_diameter_in = 1.7, centre_in = 0.1, length_in = 0.7 }
turns = 12.5
circuit = "drive"
sense = "-"
wire = { awg = 22, insulation = "grade 1" }
[coil.b]
tube = { inner_radius_mm = 12, outer_radius_mm = 15, from_mm = 40, to_mm = 49, chamfer_mm = 0.7 }
turns = 30
wire = { diameter_mm = 0.4, insulation = "bare" }
[magnet.ring]
material = { remanence_G = 12300, recoil_permeability = 1.04 }
tube = { inner_radius_mm = 2.3, outer_radius_mm = 5.1, from_mm = -9, to_mm = -3 }
magnetised = { angle_deg = 397.3 }
[magnet.back]
material = "demo magnet 1.2 T"
cylinder = { radius_mm = 3, from_mm = -30, to_mm = -20 }
magnetised = "-z"
[motion]
moving = ["ring", "back"]
displacement_in = { from = -0.07, to = 0.11, points = 8 }
[current]
together = true
drive_mA = [-333, 0, 1, 1]
b_A = 0.7
[sensor.probe]
r_in = 0.9
z_in = -0.3
face_diameter_in = 0.11
moves_with = "back"
[background]
B_z_G = -0.47
)"),
                   "");
}

TEST_CASE("many rounded tips and corners, drawn with random numbers, read back to the last bit") {
  std::mt19937 random(20240229);
  std::uniform_real_distribution<double> share(0.1, 1);
  for (int n = 0; n < 200; ++n) {
    const auto number = [&] { return std::to_string(share(random)); };
    const std::string from = "from_mm = " + std::to_string(8 * share(random)), length = number();
    check_reads_back(open("[core.tip]\n" + iron + "cone = { from_radius_in = 0." + std::to_string(100 + n) +
                          ", to_radius_mm = 0, " + from + ", to_mm = 11" + length.substr(1) +
                          ", fillet_from_outer_mm = " + number() + ", fillet_to_outer_in = 0.01" +
                          number().substr(2) + " }\n"),
                     "");
  }
}

TEST_CASE("supply, duty, mechanics and what a sensor switches read back as they were written") {
  const std::string words = canonical_text(open(R"([coil.drive]
tube = { inner_radius_mm = 7, outer_radius_mm = 12, from_mm = -10, to_mm = 10 }
turns = 60
[current]
drive_A = [0, 1]
[sensor.gate]
r_mm = 16
z_mm = 10
direction = { angle_deg = 30 }
kind = "unipolar"
operate_mT = { min = 2.1, typical = 3.3, max = 4.7 }
release_G = 13
place_tolerance_in = 0.01
delay_us = 7
[sensor.memory]
r_mm = 16
z_mm = -10
kind = "latching"
operate_mT = 3
[supply]
voltage_V = 24
capacitor_uF = 4700
series_resistance_ohm = 0.07
switch_resistance_ohm = 0.011
lead_length_mm = 2100
lead_diameter_mm = 1.13
clamp_V = 36
[duty]
strokes_per_minute = 37
pulse_ms = 21
ambient_degC = 35
thermal_class = "F"
bobbin_limit_degC = 110
cooling_W_per_m2_K = 12
[mechanics]
mass_g = 5.3
dry_friction_N = 0.21
viscous_friction_N_s_per_m = 0.3
slope_deg = -17
load_N = -0.7
spring = { rate_N_per_mm = 0.13, free_at_mm = 4 }
stops = { from_mm = 0, to_mm = 50, restitution = 0.3 }
hold_at_mm = [0.1, 0.3]
)"));
  const DeviceFile again = open(words);
  CHECK(canonical_text(again) == words);
  REQUIRE(again.operation.mechanics);
  CHECK(again.operation.mechanics->hold_at.size() == 2);
  CHECK(*again.operation.duty->insulation_degC == 155);  // class F
  CHECK(again.operation.supply->clamp == 36);
  const SwitchingSensor& gate = again.operation.sensors.at("gate");
  CHECK(gate.operate.typical == 3.3 / 1000);
  CHECK(gate.release.most == 13 / 10000.0);
  CHECK(again.operation.sensors.at("memory").release.typical == -3.0 / 1000);  // as much as it took
}

TEST_CASE("the canonical text of a drawing does not depend on where and which way round it began") {
  const std::vector<std::string> points = {"{ r_mm = 2, z_mm = 1 }", "{ r_mm = 6, z_mm = 1 }",
                                           "{ r_mm = 6, z_mm = 9 }", "{ r_mm = 2, z_mm = 9 }"};
  const std::string expected = canonical_text(
      open("[core.a]\n" + iron +
           "tube = { inner_diameter_mm = 4, outer_radius_m = 0.006, centre_mm = 5, length_mm = 8 }\n"));
  for (std::size_t start = 0; start < 4; ++start)
    for (const std::size_t step : {1u, 3u}) {
      std::string list;
      for (std::size_t i = 0; i < 4; ++i) list += points[(start + i * step) % 4] + ", ";
      CHECK(canonical_text(open("[core.a]\n" + iron + "profile = [" + list + "]\n")) == expected);
    }
}

TEST_CASE("stack, bobbin, metal, packing, knee and temperatures read back as they were written") {
  const std::string words = canonical_text(open(R"([core.stack]
material = "demo soft steel"
stacking_factor = 0.96
cylinder = { radius_mm = 3, from_mm = 0, to_mm = 10 }
[coil.drive]
tube = { inner_radius_mm = 5, outer_radius_mm = 9, from_mm = 0, to_mm = 10 }
bobbin = { wall_mm = 1, flange_mm = 0.5, clearance_mm = 0.2, layer_film_mm = 0.05 }
turns = 50
wire = { diameter_mm = 0.5, metal = "aluminium" }
packing = "rows"
temperature_degC = 80
[magnet.hot]
material = "n42"
temperature_degC = 60
cylinder = { radius_mm = 3, from_mm = 20, to_mm = 25 }
magnetised = "+z"
[magnet.given]
material = { remanence_T = 1, recoil_permeability = 1.1, knee_mT = -100 }
cylinder = { radius_mm = 3, from_mm = 30, to_mm = 35 }
magnetised = "+z"
[current]
drive_A = 1
)"));
  CHECK(words.find("stacking_factor = 0.96\n") != std::string::npos);
  CHECK(words.find("bobbin = { wall_mm = 1, flange_mm = 0.5, clearance_mm = 0.2, layer_film_mm = 0.05 }\n") !=
        std::string::npos);
  CHECK(words.find("packing = \"rows\"\ntemperature_degC = 80\n") != std::string::npos);
  CHECK(words.find("knee_T = -0.1 }") != std::string::npos);
  check_reads_back(open(words), "");
  const Device device = open(words).device;
  CHECK(bounding_box(device.coils[0].outline).r_from == near(6e-3, 1e-12));
  CHECK(bounding_box(device.coils[0].outline).z_to == near(9.5e-3, 1e-12));
  CHECK(device.magnets[0].law.remanence_z_T == near(1.3 * (1 - 0.0012 * 40), 1e-12));
  CHECK(*device.magnets[1].knee_T == -0.1);
  // A stack of 96 % steel is as good as the steel where it is polarized, B = mu0 H + 0.96 J, at its points.
  const double h = 1000, j = 1.43 - mu0 * h;
  CHECK(evaluate(device.cores[0].law, mu0 * h + 0.96 * j).h == near(h, 1e-9));
}

TEST_CASE("every default is written out, ranges become lists, units become millimetres, tesla and ampere") {
  const std::string words = canonical_text(open(R"([coil.drive]
tube = { inner_diameter_m = 0.012, outer_radius_mm = 9, centre_mm = 1, length_mm = 8 }
turns = 100
[magnet.plunger]
material = { remanence_mT = 1200, recoil_permeability = 1.05 }
cylinder = { diameter_mm = 8, from_mm = 6, to_mm = 12 }
magnetised = { angle_deg = 180 }
[motion]
moving = "plunger"
displacement_mm = { from = 0, to = 2, points = 3 }
[current]
drive_mA = { from = -1500, to = 1500, points = 3 }
)"));
  CHECK(words == R"(title = ""
tolerance = 0.001

[coil.drive]
tube = { inner_radius_mm = 6, outer_radius_mm = 9, from_mm = -3, to_mm = 5 }
turns = 100
circuit = "drive"
sense = "+"
packing = "nested"
temperature_degC = 20

[magnet.plunger]
material = { remanence_T = 1.2, recoil_permeability = 1.05 }
temperature_degC = 20
cylinder = { radius_mm = 4, from_mm = 6, to_mm = 12 }
magnetised = "-z"

[motion]
moving = ["plunger"]
displacement_mm = [0, 1, 2]

[current]
together = false
drive_A = [-1.5, 0, 1.5]

[background]
B_z_T = 0
)");
}

TEST_CASE(
    "a length is written in as few digits as bring back its double, in metres where millimetres cannot") {
  CHECK(toml_length("gap", 2.1 / 1000) == "gap_mm = 2.1");
  CHECK(toml_length("gap", 0.007) == "gap_mm = 7");
  CHECK(toml_length("gap", -0.0125) == "gap_mm = -12.5");
  CHECK(toml_length("gap", 0) == "gap_mm = 0");
  std::mt19937 random(7);
  std::uniform_real_distribution<double> metres(1e-5, 1);
  int in_mm = 0;
  for (int n = 0; n < 1000; ++n) {
    const double expected = metres(random);
    const std::string words = toml_length("r", expected);
    const std::size_t sign = words.find(" = ");
    const bool is_mm = words.substr(0, sign) == "r_mm";
    const double read = std::stod(words.substr(sign + 3));
    CHECK((is_mm ? read / 1000 : read) == expected);
    in_mm += is_mm;
  }
  CHECK(in_mm > 500);
  CHECK(in_mm < 1000);
}

}  // namespace coilpull
