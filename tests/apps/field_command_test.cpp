// SPDX-License-Identifier: GPL-3.0-or-later
#include "apps/commands/field.hpp"

#include <doctest/doctest.h>

#include "apps/device_file/bad_device.hpp"
#include "tests/near.hpp"

using namespace coilpull;

namespace {

Device two_circuits() {
  Device device;
  device.circuits = {"drive", "brake"};
  device.displacements = {1e-3, 2e-3};
  device.currents_A = {{-1, 2}, {1, 2}};
  return device;
}

PointOptions with_currents(std::vector<std::string> currents) {
  PointOptions options;
  options.currents = std::move(currents);
  return options;
}

std::string refusal(const std::string& current) {
  try {
    at_one_point(two_circuits(), with_currents({current}));
  } catch (const BadDevice& e) {
    return e.what();
  }
  return "accepted";
}

}  // namespace

TEST_CASE("without options the point is the first displacement, every current off") {
  const Device device = at_one_point(two_circuits(), {});
  CHECK(device.displacements == std::vector<double>{1e-3});
  CHECK(device.currents_A == std::vector<std::vector<double>>{{0, 0}});
}

TEST_CASE("the only set of currents of a file is the default") {
  Device device = two_circuits();
  device.currents_A.resize(1);
  CHECK(at_one_point(device, {}).currents_A == std::vector<std::vector<double>>{{-1, 2}});
}

TEST_CASE("displacement and currents are taken from the command line in mm and A") {
  PointOptions options = with_currents({"brake=-2.5", "drive=+4"});
  options.displacement_mm = 2.5;
  const Device device = at_one_point(two_circuits(), options);
  CHECK(device.displacements.at(0) == near(2.5e-3, 1e-15));
  CHECK(device.currents_A == std::vector<std::vector<double>>{{4, -2.5}});
}

TEST_CASE("a current that does not fit is refused with what would") {
  CHECK(refusal("drve=4") ==
        "--current drve=4: no such circuit.\n  Circuits of this device: drive, brake; for example --current "
        "drive=1.5 for 1.5 A.");
  for (const char* wrong : {"drive", "drive=", "drive=4A", "drive=nan", "drive=inf", "=4", "drive=++4"})
    CHECK_MESSAGE(refusal(wrong) != "accepted", wrong);
}
