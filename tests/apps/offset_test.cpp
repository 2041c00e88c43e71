// SPDX-License-Identifier: GPL-3.0-or-later
#include <cmath>

#include "apps/offset/offset_point.hpp"
#include "apps/output/offset_text.hpp"
#include "solver/closed_form/thick_coil.hpp"
#include "solver/sweep/sweep.hpp"
#include "tests/near.hpp"

namespace coilpull {
namespace {

/// A rod of steel in a coil draws or pushes a disc magnet in front of it; invented round numbers. Everything
/// is linear and the magnet's recoil permeability is 1, so that reciprocity holds.
Device rod_and_disc() {
  Device device;
  device.title = "rod and disc";
  device.cores.push_back({"rod", rectangle(0, 4e-3, -20e-3, 0), LinearLaw{500}, "linear"});
  device.coils.push_back({"drive", rectangle(5e-3, 9e-3, -18e-3, -2e-3), 200, "drive"});
  device.magnets.push_back({"disc", rectangle(0, 5e-3, 0, 4e-3), {0, 1.2, 1}, "invented"});
  device.moving = {"disc"};
  device.displacements = {5e-3};
  device.circuits = {"drive"};
  device.currents_A = {{2}, {-2}};
  return device;
}

OffsetPoint solved(const Device& device, OffsetQuestion question) {
  question.displacement = 5e-3;
  question.currents_A = {2};
  Mesher mesher;
  std::string why;
  const auto point = offset_point(device, question, mesher, why);
  REQUIRE_MESSAGE(point, why);
  return *point;
}

}  // namespace

TEST_CASE("linear steel: charges in the field without the magnet feel what reversing the current changes") {
  const Device device = rod_and_disc();
  SweepOptions options;
  options.audit = false;
  const ForceTable table = sweep(device, options);
  const Measured with = table.rows[0].force_N, back = table.rows[1].force_N;
  const OffsetAnswer seen = solved(device, {}).on_axis;
  CHECK(std::abs(seen.value.axial_N - (with.value - back.value) / 2) <
        (with.error + back.error) / 2 + seen.bar.axial_N);
  CHECK(seen.bar.axial_N < 2e-3 * std::abs(seen.value.axial_N));
}

TEST_CASE("coil without steel: the magnet beside the axis feels the closed form of the coil's field") {
  Device device = rod_and_disc();
  device.cores.clear();
  const OffsetQuestion question{0, {}, 3e-3, 0.1, {}};
  const OffsetPoint seen = solved(device, question);
  const AxisymmetricField closed = [](Point at) {
    const SourceField b = flux_density(Box{5e-3, 9e-3, -18e-3, -2e-3}, 400, at);
    return FluxDensity{b.br_T, b.bz_T};
  };
  const AxialCharge disc{moved(device.magnets[0].outline, 5e-3), 1.2};
  const OffsetForce exact = force_in_field(disc, {3e-3, 0.1, 7e-3}, closed);
  // open air, nothing singular but the winding's corners far off: the field is good to 1e-4
  CHECK(seen.here.value.axial_N == near(exact.axial_N, 1e-3));
  CHECK(seen.here.value.side_N == near(exact.side_N, 1e-3));
  CHECK(seen.here.value.torque_Nm == near(exact.torque_Nm, 1e-3));
  // The way out begins on the axis and ends there, in even steps; half way likewise by the closed form.
  REQUIRE(seen.way.size() == 21);
  CHECK(seen.way.front().answer.value.axial_N == near(seen.on_axis.value.axial_N, 1e-12));
  CHECK(seen.way.back().answer.value.side_N == near(seen.here.value.side_N, 1e-12));
  CHECK(seen.way[10].answer.value.side_N ==
        near(force_in_field(disc, {1.5e-3, 0.05, 7e-3}, closed).side_N, 1e-3));
}

TEST_CASE("places on the way where a magnet would run into a part are left out") {
  const OffsetPoint beside =
      solved(rod_and_disc(), {0, {}, 30e-3, 0, {}});  // 5 mm before the rod: free all the way
  CHECK(beside.way.size() == 21);
  Device device = rod_and_disc();
  device.magnets[0].outline = rectangle(0, 5e-3, -15e-3, -11e-3);
  device.cores[0].outline = rectangle(20e-3, 24e-3, -20e-3, 0);
  device.coils[0].outline = rectangle(9e-3, 12e-3, -18e-3, -2e-3);
  const OffsetPoint outside =
      solved(device, {0, {}, 40e-3, 0, {}});  // through winding and steel to beyond them
  CHECK(outside.way.size() > 5);
  CHECK(outside.way.size() < 15);
}

TEST_CASE(
    "a pair: half way the axial forces add and nothing draws to the side, off it the nearer coil is felt") {
  const Device device = rod_and_disc();
  const OffsetPoint half_way = solved(device, {0, {}, 0, 0, 30e-3});
  const OffsetPoint alone = solved(device, {0, {}, 15e-3, 0, {}});
  CHECK(half_way.here.value.axial_N == near(2 * alone.here.value.axial_N, 1e-3));  // meshes differ
  CHECK(half_way.here.value.side_N == 0);
  REQUIRE(half_way.each.size() == 2);
  CHECK(half_way.each[0].value.axial_N == near(half_way.each[1].value.axial_N, 1e-12));
  CHECK(half_way.each[0].value.side_N == near(-half_way.each[1].value.side_N, 1e-12));
  CHECK(half_way.way.empty());  // nowhere to go
  const OffsetPoint off = solved(device, {0, {}, 2e-3, 0, 30e-3}),
                    other = solved(device, {0, {}, -2e-3, 0, 30e-3});
  CHECK(off.here.value.side_N == near(-other.here.value.side_N, 1e-9));
  CHECK(off.here.value.axial_N == near(other.here.value.axial_N, 1e-9));
}

TEST_CASE("what cannot be asked off the axis is told, and a magnet that runs into a part is refused") {
  Device device = rod_and_disc();
  CHECK(why_no_offset(device).empty());
  Mesher mesher;
  std::string why;
  CHECK_FALSE(offset_point(device, {-2e-3, {2}, 0, 0, {}}, mesher, why));
  CHECK(why == "there a magnet would run into rod.");
  device.moving.push_back("rod");
  CHECK(why_no_offset(device).find("not only magnets move") == 0);
  device = rod_and_disc();
  device.magnets[0].law.remanence_r_T = 0.5;
  CHECK(why_no_offset(device).find("disc is not magnetised along the axis") != std::string::npos);
}

TEST_CASE("the words off the axis name what is an estimate and what is not known") {
  const Device device = rod_and_disc();
  const OffsetQuestion question{5e-3, {2}, 1e-3, 0, {}};
  const OffsetPoint point{{{0.5, 0, 0}, {1e-3, 0, 0}}, {{0.4, 0.1, 2e-4}, {1e-3, 1e-3, 1e-6}}};
  const std::string text = offset_text(device, question, point, {{2, 1e-3}, {0.3, 1e-3}, {1.5, 1e-3}, -100});
  CHECK(text.find("off by 0.2 N, 67 %") != std::string::npos);
  CHECK(text.find("as a sketch") != std::string::npos);
  CHECK(text.find("Estimate of what the steel does without current") != std::string::npos);
  CHECK(text.find("Not known: the pull of the steel to the side") != std::string::npos);
  CHECK(text.find("at least 0.05 N") != std::string::npos);  // half of 100 N/m times 1 mm
}

}  // namespace coilpull
