// SPDX-License-Identifier: GPL-3.0-or-later
#include "apps/device_file/read_device_file.hpp"

#include <cmath>
#include <string>

#include "tests/near.hpp"

namespace coilpull {

namespace {

namespace fs = std::filesystem;

const fs::path devices = fs::path(COILPULL_SOURCE_DIR) / "data/devices";

/// A fixed coil and a moving magnet around it, with more tables behind.
std::string coil_and_magnet(const std::string& more) {
  return R"([coil.drive]
tube = { inner_radius_mm = 7.5, outer_radius_mm = 12.5, from_mm = -12, to_mm = 12 }
turns = 180
[magnet.plunger]
material = { remanence_T = 1.2, recoil_permeability = 1.05 }
cylinder = { radius_mm = 4.5, from_mm = -30, to_mm = -20 }
magnetised = "+z"
)" + more;
}

Device read(const std::string& text) { return read_device_text(text, "test.toml", ""); }

const std::string at_rest = "[current]\ndrive_A = 0\n";

/// A ring magnet alone, magnetised as the value says.
MagnetLaw ring_magnetised(const std::string& value) {
  return read(R"([magnet.ring]
material = { remanence_T = 1.2, recoil_permeability = 1.05 }
tube = { inner_radius_mm = 2, outer_radius_mm = 4, from_mm = 0, to_mm = 5 }
magnetised = )" +
              value)
      .magnets[0]
      .law;
}

}  // namespace

TEST_CASE("the tube pusher arrives in SI units, every part where the file draws it") {
  const Device device = read_device_file(devices / "01_tube_pusher.toml");
  CHECK(device.title == "Tube pusher (invented lab machine)");
  CHECK(device.tolerance == 0.001);

  REQUIRE(device.cores.size() == 1);
  CHECK(device.cores[0].name == "sleeve");
  CHECK(device.cores[0].material == "demo soft steel");
  const Box sleeve = bounding_box(device.cores[0].outline);
  CHECK(sleeve.r_from == 0.0055);
  CHECK(sleeve.r_to == 0.007);
  CHECK(sleeve.z_from == -0.014);
  CHECK(sleeve.z_to == 0.014);

  REQUIRE(device.coils.size() == 1);
  CHECK(device.coils[0].turns == 180);
  CHECK(device.coils[0].circuit == "drive");
  CHECK(device.coils[0].sense == 1);
  REQUIRE(device.coils[0].wire);
  CHECK(device.coils[0].wire->bare_diameter == near(0.71e-3, 1e-12));
  CHECK(device.coils[0].wire->overall_diameter ==
        near(0.789e-3, 1e-12));  // IEC 60317-0-1, grade 2, in data/wire

  REQUIRE(device.magnets.size() == 1);
  CHECK(bounding_box(device.magnets[0].outline).r_from == 0);
  CHECK(device.magnets[0].law.remanence_r_T == 0);
  CHECK(device.magnets[0].law.remanence_z_T == 1.2);

  CHECK(device.moving == std::vector<std::string>{"plunger"});
  REQUIRE(device.displacements.size() == 51);
  CHECK(device.displacements[7] == 0.007);
  CHECK(device.circuits == std::vector<std::string>{"drive"});
  REQUIRE(device.currents_A.size() == 13);
  CHECK(device.currents_A[6] == std::vector<double>{0});
  CHECK(device.currents_A[12] == std::vector<double>{6});
  REQUIRE(device.sensors.size() == 1);
  CHECK(device.sensors[0].at == Point{0.016, 0.010});
  CHECK(device.sensors[0].face_radius == 0);
  CHECK(!device.sensors[0].moves);
  CHECK(device.background_bz_T == 0);
}

TEST_CASE("what is left out takes the value that changes nothing") {
  const Device device = read(coil_and_magnet(at_rest));
  CHECK(device.moving.empty());
  CHECK(device.displacements == std::vector<double>{0});
  CHECK(device.background_bz_T == 0);
  CHECK(!device.coils[0].wire);
}

TEST_CASE("a magnet's direction turns from +z towards +r, and is exact along and across the axis") {
  CHECK(ring_magnetised("\"-z\"").remanence_z_T == -1.2);
  CHECK(ring_magnetised("\"+r\"").remanence_r_T == 1.2);
  CHECK(ring_magnetised("{ angle_deg = 90 }").remanence_z_T == 0);
  CHECK(ring_magnetised("{ angle_deg = 90 }").remanence_r_T == 1.2);
  CHECK(ring_magnetised("{ angle_deg = -180 }").remanence_r_T == 0);
  CHECK(ring_magnetised("{ angle_deg = -180 }").remanence_z_T == -1.2);
  CHECK(ring_magnetised("{ angle_deg = 30 }").remanence_r_T == near(0.6, 1e-15));
  CHECK(ring_magnetised("{ angle_deg = 30 }").remanence_z_T == near(0.6 * std::sqrt(3.0), 1e-15));
}

TEST_CASE("coils keep the order of the drawing, and those of one circuit share its current") {
  const Device device = read(R"([coil.zulu]
tube = { inner_diameter_mm = 10, outer_diameter_mm = 20, from_mm = 0, to_mm = 5 }
turns = 20.5
[coil.alpha]
tube = { inner_diameter_mm = 10, outer_diameter_mm = 20, from_mm = 10, to_mm = 15 }
turns = 20
circuit = "brake"
[coil.bravo]
tube = { inner_diameter_mm = 10, outer_diameter_mm = 20, from_mm = 20, to_mm = 25 }
turns = 20
circuit = "zulu"
sense = "-"
[current]
brake_A = [1, 2]
zulu_mA = [100, 200]
)");
  CHECK(device.coils[0].name == "zulu");
  CHECK(device.coils[0].turns == 20.5);
  CHECK(device.coils[1].name == "alpha");
  CHECK(device.coils[2].sense == -1);
  CHECK(device.circuits == std::vector<std::string>{"zulu", "brake"});
  CHECK(device.currents_A == std::vector<std::vector<double>>{{0.1, 1}, {0.1, 2}, {0.2, 1}, {0.2, 2}});
}

TEST_CASE("circuits named together are not crossed") {
  const Device device = read(R"([coil.a]
tube = { inner_radius_mm = 5, outer_radius_mm = 8, from_mm = 0, to_mm = 5 }
turns = 20
[coil.b]
tube = { inner_radius_mm = 5, outer_radius_mm = 8, from_mm = 10, to_mm = 15 }
turns = 20
[current]
a_A = [1, 2, 3]
b_A = 7
together = true
)");
  CHECK(device.currents_A == std::vector<std::vector<double>>{{1, 7}, {2, 7}, {3, 7}});
}

TEST_CASE("a sensor moves with a part that moves, and has the face it is given") {
  const Device device = read(coil_and_magnet(
      at_rest +
      "[motion]\nmoving = \"plunger\"\n[sensor.nose]\nr_mm = 0\nz_in = -1\nface_diameter_mm = 4\n"
      "moves_with = \"plunger\"\n"));
  CHECK(device.sensors[0].moves);
  CHECK(device.sensors[0].at == Point{0, -0.0254});
  CHECK(device.sensors[0].face_radius == 0.002);
}

TEST_CASE("wire given by gauge or without enamel") {
  const auto wire = [](const std::string& words) {
    return *read(
                "[coil.drive]\ntube = { inner_radius_mm = 7.5, outer_radius_mm = 12.5, from_mm = -12, to_mm "
                "= 12 }\n"
                "turns = 100\nwire = " +
                words + "\n" + at_rest)
                .coils[0]
                .wire;
  };
  // ASTM B258: 0.005 in at gauge 36, 0.460 in at gauge 0000, 39 equal ratios between: gauge 21 is 0.7229 mm.
  CHECK(wire("{ awg = 21, insulation = \"bare\" }").bare_diameter == near(0.7229e-3, 1e-4));
  CHECK(wire("{ awg = 21, insulation = \"bare\" }").overall_diameter == wire("{ awg = 21 }").bare_diameter);
  const double grade_1 = wire("{ diameter_mm = 0.71, insulation = \"grade 1\" }").overall_diameter;
  const double unsaid = wire("{ diameter_mm = 0.71 }").overall_diameter;
  CHECK(grade_1 < unsaid);  // unsaid: the thicker one, grade 2
  CHECK(unsaid == wire("{ diameter_mm = 0.71, insulation = \"grade 2\" }").overall_diameter);
}

TEST_CASE("a material file is found beside the device file") {
  const std::string core =
      "[core.rod]\nmaterial = \"../steels/demo_soft_steel.toml\"\n"
      "cylinder = { radius_mm = 5, from_mm = 0, to_mm = 9 }\n";
  CHECK(read_device_text(core, "test.toml", devices).cores[0].material == "demo soft steel");
}

TEST_CASE("trouble between two parts is told in the words of the file") {
  const DeviceFile file = open_device_text(coil_and_magnet(at_rest), "test.toml", "");
  CHECK(explain(BadSection("drive", "plunger", "they overlap by 0.2 mm"), file) ==
        "test.toml:1: [coil.drive] and test.toml:4: [magnet.plunger]: they overlap by 0.2 mm");
  CHECK(explain(BadSection("plunger", "", "it reaches across the axis"), file) ==
        "test.toml:4: [magnet.plunger]: it reaches across the axis");
}

TEST_CASE("a file that is not there, or is a folder, is refused by its name") {
  CHECK_THROWS_WITH_AS(read_device_file("no_such_device.toml"), "no_such_device.toml: there is no such file.",
                       BadDevice);
  CHECK_THROWS_AS(read_device_file(devices), BadDevice);
}

}  // namespace coilpull
