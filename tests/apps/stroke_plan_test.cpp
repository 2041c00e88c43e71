// SPDX-License-Identifier: GPL-3.0-or-later
// Strokes set up from a table whose force is known in closed form. All numbers are invented.
#include "apps/motion/stroke_plan.hpp"

#include <algorithm>
#include <cmath>
#include <nlohmann/json.hpp>

#include "apps/motion/best_switching.hpp"
#include "apps/motion/sensor_level.hpp"
#include "apps/motion/stroke_cautions.hpp"
#include "apps/motion/stroke_faults.hpp"
#include "apps/motion/stroke_figures.hpp"
#include "apps/motion/two_stages.hpp"
#include "apps/output/sha256.hpp"
#include "apps/output/stroke_text.hpp"
#include "materials/constants.hpp"
#include "tests/near.hpp"

namespace coilpull {
namespace {

constexpr double pull = 0.4;  ///< of the current, towards +z below 0 and back above [N/(A mm) per A]
constexpr double henry = 2e-3;
constexpr double bar_N = 1e-3;

/// W' = henry i^2 / 2 - 200 pull z^2 i, -20 to 20 mm, 0 to 4 A: F = -400 pull z i. A sensor sees 1 mT a mm.
ForceTable closed_table() {
  ForceTable table;
  table.circuits = {"drive"};
  table.currents_per_displacement = 5;
  for (int n = -10; n <= 10; ++n)
    for (int m = 0; m <= 4; ++m) {
      const double z = 2e-3 * n, i = m;
      Measurement row{};
      row.displacement = z;
      row.clearance = 1e-3;
      row.currents_A = {i};
      row.force_N = {-400 * pull * z * i, bar_N};
      row.linkage_Wb = {{henry * i - 200 * pull * z * z, 1e-6}};
      row.coenergy_J = henry * i * i / 2 - 200 * pull * z * z * i;
      row.sensors = {{0, z}};
      table.rows.push_back(row);
    }
  return table;
}

DeviceFile file_of() {
  DeviceFile file{{}, {}, "stage.toml"};
  file.device.title = "closed";
  file.device.cores = {{"plunger", rectangle(0, 5e-3, -5e-3, 5e-3), LinearLaw(1000), "straight"}};
  file.device.coils = {{"drive", rectangle(6e-3, 9e-3, -5e-3, 5e-3), 100, "drive"}};
  file.device.moving = {"plunger"};
  file.device.circuits = {"drive"};
  file.device.sensors = {{"gate", {12e-3, 0}}};
  file.operation.supply = Supply{10};
  file.operation.mechanics = Mechanics{0.01};
  SwitchingSensor gate{0, 1, 0, SwitchingSensor::Kind::unipolar, {1e-3, 3e-3, 5e-3}, {0.5e-3, 1e-3, 2e-3}};
  gate.delay = 2e-4;
  file.operation.sensors.emplace("gate", gate);
  return file;
}

HeatAdvice heat_of() {
  HeatAdvice heat{};
  heat.winding = {4, 0.00393, 10, 1e-3};
  heat.source.stiff = {10.0, {}, 0.5};
  heat.start_degC = 20;
  heat.table_current_A = 2.2;
  return heat;
}

struct Ran {
  StrokePlan plan;
  SwitchedRun run;
  StrokeFigures figures;
};

Ran ran(const StrokeChoice& choice) {
  const ForceTable table = closed_table();
  const DriveTable drive = drive_of(table, "");
  StrokePlan plan = plan_stroke(file_of(), table, drive, heat_of(), choice);
  const SwitchedRun run = simulate_switched_stroke(drive.fit.function, plan.setup, plan.start, plan.options);
  const StrokeFigures figures = stroke_figures(plan, run, drive, table);
  return {plan, run, figures};
}

}  // namespace

TEST_CASE("a stroke is switched as statics would: on where it starts, off where the current's force turns") {
  const Ran one = ran({});
  CHECK(one.plan.way == 1);
  CHECK(one.plan.setup.stages[0].first == Switching::on);
  REQUIRE(one.plan.off);
  CHECK(std::abs(*one.plan.off) < 1e-7);  // the force turns at 0, the fit is exact for a polynomial
  REQUIRE(one.figures.stages[0].off_at);
  CHECK(std::abs(*one.figures.stages[0].off_at) < 1e-7);
  CHECK(one.figures.speed_m_per_s > 0);
}

TEST_CASE("a stroke's efficiency is kinetic over delivered energy, and its account closes") {
  const Ran one = ran({});
  REQUIRE(one.figures.efficiency);
  CHECK(*one.figures.efficiency == near(one.figures.kinetic_J / one.run.energy.delivered, 1e-12));
  CHECK(std::abs(one.run.energy.gap()) < 1e-6 * one.run.energy.delivered);
  CHECK(stroke_text(one.plan, one.run, one.figures).find("it closes to") != std::string::npos);
}

TEST_CASE("the band of the speed at the end is what the bar of the force does over the way") {
  const Ran one = ran({});
  const double way = one.run.points.back().state.displacement - one.plan.start.displacement;
  // counted in steps of a 400th of the stroke: a percent; off the polynomial's bar nothing is added
  CHECK(one.figures.band_J == near(bar_N * way, 2e-2));
  // fastest on the way, where the force turns: a part of the band
  CHECK(one.figures.fastest_band_J < one.figures.band_J);
  double there = 0, fastest = 0;
  for (const StrokePoint& p : one.run.points)
    if (std::abs(p.state.speed_m_per_s) > fastest)
      fastest = std::abs(p.state.speed_m_per_s), there = p.state.displacement;
  CHECK(one.figures.fastest_band_J == near(bar_N * (there - one.plan.start.displacement), 3e-2));
  CHECK(one.figures.low_m_per_s < one.figures.speed_m_per_s);
  CHECK(one.figures.high_m_per_s ==
        near(std::sqrt(2 * (one.figures.kinetic_J + one.figures.band_J) / 0.01), 1e-12));
}

TEST_CASE(
    "stroke.csv has a column for each that its metadata describes, and a row for each point of the run") {
  StrokeChoice choice;
  choice.stages = 2, choice.pitch_mm = 50;
  const Ran two = ran(choice);
  const std::string csv = stroke_csv(two.plan, two.run);
  const std::string head = csv.substr(0, csv.find("\r\n"));
  const auto metadata = nlohmann::json::parse(
      stroke_metadata(two.plan, two.run, two.figures, {{}, {{"row", "row.toml", "x"}}}, "stroke.csv", csv));
  std::string described;
  for (const auto& column : metadata["tableSchema"]["columns"])
    described += (described.empty() ? "" : ",") + column["name"].get<std::string>();
  CHECK(described == head);
  CHECK(metadata["notes"][0]["table_sha256"] == sha256(csv));
  CHECK(described.find("current_2_A") != std::string::npos);
  const auto lines = std::count(csv.begin(), csv.end(), '\n');
  CHECK(static_cast<std::size_t>(lines) == two.run.points.size() + 1);
}

TEST_CASE("a sensor switches a stage at its typical threshold, after its delay") {
  StrokeChoice choice;
  choice.off_by = "gate";  // 3 mT: at 3 mm
  choice.speed_m_per_s = 3;
  const Ran one = ran(choice);
  double passes = 0;
  for (std::size_t k = 1; k < one.run.points.size() && passes == 0; ++k) {
    const StrokeState &a = one.run.points[k - 1].state, &b = one.run.points[k].state;
    if (b.displacement >= 3e-3)
      passes = a.time_s + (3e-3 - a.displacement) / (b.displacement - a.displacement) * (b.time_s - a.time_s);
  }
  REQUIRE(one.figures.stages[0].off_s);
  CHECK(std::abs(*one.figures.stages[0].off_s - passes - 2e-4) < 1e-7);  // the crossing is a point of the run
  const SensorLevel off =
      sensor_level(file_of(), "gate", closed_table(), drive_of(closed_table(), ""), false);
  CHECK(off.over(0.5e-3, 1) > 0);  // below the 1 mT of release
  CHECK(off.over(1.5e-3, 1) < 0);
  CHECK_THROWS_AS(sensor_level(file_of(), "gat", closed_table(), drive_of(closed_table(), ""), true),
                  BadDevice);
}

TEST_CASE("the best leads are no worse than the plain choice, and switch off before the middle") {
  const ForceTable table = closed_table();
  const DriveTable drive = drive_of(table, "");
  const StrokePlan plain = plan_stroke(file_of(), table, drive, heat_of(), {});
  BestOptions few;
  few.most_lead = 10e-3;
  few.global_runs = few.local_runs = 15;
  const BestSwitching best = best_switching(file_of(), plain, drive.fit.function, few);
  CHECK(best.best_m_per_s >= best.plain_m_per_s);
  CHECK(best.off_lead >= 0);  // what is left of the current draws back after the middle
  const SwitchedRun again =
      simulate_switched_stroke(drive.fit.function, best.plan.setup, best.plan.start, best.plan.options);
  CHECK(again.points.back().state.speed_m_per_s == near(best.best_m_per_s, 1e-12));
}

TEST_CASE("a mover that friction holds is said not to move, and a winding without resistance is refused") {
  const ForceTable table = closed_table();
  const DriveTable drive = drive_of(table, "");
  DeviceFile file = file_of();
  for (const double friction_N : {0.0, 1000.0}) {
    file.operation.mechanics->dry_friction = friction_N;
    const StrokePlan plan = plan_stroke(file, table, drive, heat_of(), {});
    const SwitchedRun run =
        simulate_switched_stroke(drive.fit.function, plan.setup, plan.start, plan.options);
    const StrokeFigures figures = stroke_figures(plan, run, drive, table);
    CHECK(figures.moved == (friction_N == 0));
    const std::string first = stroke_cautions(file, plan, run, figures, drive, {}).front();
    CHECK((first.find("IT DOES NOT MOVE") == 0) == (friction_N > 0));
  }
  CHECK_THROWS_WITH_AS(heat_of_stroke(file, drive, std::nullopt), doctest::Contains("[coil.drive] wire"),
                       BadDevice);
}

TEST_CASE("two stages are everything that stands, once more at the pitch, with circuits of their own") {
  const Device two = two_stages(file_of().device, 40e-3);
  CHECK(two.cores.size() == 1);  // the plunger moves
  REQUIRE(two.coils.size() == 2);
  CHECK(two.coils[1].name == "drive_next");
  CHECK(two.circuits == std::vector<std::string>{"drive", "drive_next"});
  CHECK(bounding_box(two.coils[1].outline).z_from == near(35e-3, 1e-12));
}

TEST_CASE("flux enters a solid straight core within mu sigma a^2 / 5.78") {
  const auto times = diffusion_times(file_of());
  REQUIRE(times.size() == 1);
  CHECK(times[0].assumed);
  CHECK(times[0].most_s == near(1000 * mu0 / 1.4e-7 * 25e-6 / 5.78, 1e-9));
  CHECK(times[0].least_s == near(times[0].most_s, 1e-9));
}

TEST_CASE(
    "a pitch within the stage, a start outside the stroke and a mover without mass are refused in words") {
  StrokeChoice close, outside;
  close.stages = 2, close.pitch_mm = 5;
  DeviceFile moving = file_of();
  moving.device.displacements = {-20e-3, 20e-3};
  outside.start_mm = 50;
  CHECK_THROWS_WITH_AS(refuse_stroke(moving, close), doctest::Contains("10 mm long"), BadDevice);
  CHECK_THROWS_WITH_AS(refuse_stroke(moving, outside), doctest::Contains("-20 to 20 mm"), BadDevice);
  DeviceFile light = moving;
  light.operation.mechanics->mass.reset();
  CHECK_THROWS_WITH_AS(refuse_stroke(light, {}), doctest::Contains("mass_g"), BadDevice);
}

}  // namespace coilpull
