// SPDX-License-Identifier: GPL-3.0-or-later
#include "solver/device/approximate_force.hpp"

#include <doctest/doctest.h>

#include "solver/closed_form/axial_magnet.hpp"
#include "solver/closed_form/image.hpp"
#include "solver/closed_form/thick_coil.hpp"
#include "tests/near.hpp"

using namespace coilpull;

namespace {

const Box coil{0.008, 0.012, -0.010, 0.010}, second{0.013, 0.015, -0.004, 0.010};
const Box magnet{0, 0.006, 0.012, 0.022};
constexpr double rounding = 1e-12;

Outline outline_of(const Box& box) { return rectangle(box.r_from, box.r_to, box.z_from, box.z_to); }

Device two_coils_and_a_magnet() {
  Device device;
  device.coils = {{"drive", outline_of(coil), 100, "drive"}, {"trim", outline_of(second), 40, "trim", -1}};
  device.magnets = {{"plunger", outline_of(magnet), {0, 1.2, 1.05}, "test"}};
  device.circuits = {"drive", "trim"};
  device.moving = {"plunger"};
  return device;
}

Core disc(double z_from, double z_to) {
  return {"disc", rectangle(0, 0.05, z_from, z_to), LinearLaw{1000}, "test"};
}

AxialMagnet shifted(double z) { return {{0, 0.006, 0.012 + z, 0.022 + z}, 1.2, 1.05}; }

std::string refusal(const Device& device, Approximation approximation) {
  try {
    approximate_force(device, approximation, 0);
  } catch (const NotDescribed& trouble) {
    return trouble.what();
  }
  return "";
}

}  // namespace

TEST_CASE("current sheets: each coil pulls the magnet by its own turns, sense and current") {
  const Device device = two_coils_and_a_magnet();
  const double expected =
      force_on(shifted(0.003), coil, 100 * 2.0) - force_on(shifted(0.003), second, 40 * 3.0);
  const ForceFormula formula = approximate_force(device, Approximation::current_sheets, 0.003);
  CHECK(formula.at({2, 3}) == near(expected, rounding));
  CHECK(formula.at({0, 0}) == 0);
}

TEST_CASE("current sheets: what moves may be any part, and force goes with the product of two currents") {
  Device device = two_coils_and_a_magnet();
  device.moving = {"trim", "plunger"};
  const Box moved_trim{0.013, 0.015, -0.001, 0.013};
  const double expected =
      force_on(shifted(0.003), coil, 100 * 2.0) - 100 * 2.0 * 40 * 3.0 * inductance_slope(moved_trim, coil);
  CHECK(approximate_force(device, Approximation::current_sheets, 0.003).at({2, 3}) ==
        near(expected, rounding));

  // By Newton's third law: all but the drive moved up is the drive moved down, and the force turns round.
  device.moving = {"drive"};
  CHECK(approximate_force(device, Approximation::current_sheets, -0.003).at({2, 3}) == near(-expected, 1e-9));
}

TEST_CASE("current sheets leave steel out, the mirror image takes it in, whichever of the two moves") {
  Device device = two_coils_and_a_magnet();
  const double bare = approximate_force(device, Approximation::current_sheets, 0.003).at({2, 3});
  device.cores = {disc(-0.016, -0.011)};
  CHECK(approximate_force(device, Approximation::current_sheets, 0.003).at({2, 3}) == bare);

  const AxialMagnet plunger = shifted(0.003);
  const double images = force_by_iron(plunger, -0.011) +
                        force_on(plunger, mirrored(coil, -0.011), 100 * 2.0) -
                        force_on(plunger, mirrored(second, -0.011), 40 * 3.0);
  CHECK(approximate_force(device, Approximation::mirror_image, 0.003).at({2, 3}) ==
        near(bare + images, 1e-9));

  Device keeper;
  keeper.magnets = {{"magnet", outline_of(magnet), {0, 1.2, 1.0}, "test"}};
  keeper.cores = {disc(0.023, 0.028)};
  keeper.moving = {"disc"};
  const double on_magnet = force_by_iron(AxialMagnet{magnet, 1.2}, 0.023 + 0.002);
  CHECK(approximate_force(keeper, Approximation::mirror_image, 0.002).at({}) == near(-on_magnet, rounding));
  CHECK(on_magnet > 0);  // up, to the disc above
}

TEST_CASE("an approximation says what of the device it cannot describe") {
  Device device = two_coils_and_a_magnet();
  CHECK(refusal(device, Approximation::current_sheets).empty());
  CHECK(refusal(device, Approximation::mirror_image).find("0 parts of steel") != std::string::npos);
  device.cores = {disc(-0.005, 0.005)};
  CHECK(refusal(device, Approximation::mirror_image).find("one side") != std::string::npos);
  device.cores = {{"ring", rectangle(0.001, 0.05, -0.02, -0.015), LinearLaw{1000}, "test"}};
  CHECK(refusal(device, Approximation::mirror_image).find("ring has a bore") != std::string::npos);

  device.magnets[0].law.remanence_r_T = 0.5;
  CHECK(refusal(device, Approximation::current_sheets).find("plunger is not magnetised along") !=
        std::string::npos);
  device = two_coils_and_a_magnet();
  device.magnets[0].outline.edges = {
      {{0, 0.012}, {0.006, 0.012}}, {{0.006, 0.012}, {0, 0.022}}, {{0, 0.022}, {0, 0.012}}};
  CHECK(refusal(device, Approximation::current_sheets).find("square corners") != std::string::npos);
  device = two_coils_and_a_magnet();
  device.moving = {};
  CHECK(refusal(device, Approximation::current_sheets).find("nothing moves") != std::string::npos);
  device.moving = {"drive", "trim", "plunger"};
  CHECK(refusal(device, Approximation::current_sheets).find("no moving one") != std::string::npos);
}
