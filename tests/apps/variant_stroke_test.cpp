// SPDX-License-Identifier: GPL-3.0-or-later
// Figures of a stroke as goals and limits of variants. All numbers are invented.
#include <doctest/doctest.h>

#include <cmath>

#include "apps/motion/stroke_figures.hpp"
#include "apps/output/csv_table.hpp"
#include "apps/variants/improve.hpp"
#include "apps/variants/solve_variants.hpp"
#include "apps/variants/stroke_use.hpp"
#include "solver/sweep/sweep.hpp"
#include "tests/apps/stage_variants.hpp"
#include "tests/near.hpp"

using namespace coilpull;

namespace {

std::vector<const Variant*> all_of(const VariantPlan& plan) {
  std::vector<const Variant*> all;
  for (const Variant& variant : plan.variants) all.push_back(&variant);
  return all;
}

/// How many tables were solved and what all come to; a store that stays in the folder.
std::size_t solved(const VariantsFile& file, const VariantPlan& plan, VariantStore& store,
                   VariantResults& results) {
  const std::size_t count = solve_variants(all_of(plan), store);
  run_strokes(all_of(plan), *file.stroke, store, {});
  results.clear();
  for (const Variant& variant : plan.variants) results.push_back(stored_result(store, variant));
  return count;
}

constexpr double newton_per_A = 2, bar_N = 0.01, way_m = 0.02;

/// W' = L i^2 / 2 + 2 N/A z i: a force that depends on the current alone.
ForceTable even_table() {
  ForceTable table;
  table.circuits = {"pull"};
  table.currents_per_displacement = 4;
  for (int n = 0; n <= 10; ++n)
    for (int m = 0; m <= 3; ++m) {
      const double z = way_m * n / 10, i = m;
      Measurement row{};
      row.displacement = z;
      row.currents_A = {i};
      row.force_N = {newton_per_A * i, bar_N};
      row.linkage_Wb = {{1e-6 * i + newton_per_A * z, 1e-6}};
      row.coenergy_J = 0.5e-6 * i * i + newton_per_A * z * i;
      table.rows.push_back(row);
    }
  return table;
}

const char* const even_words = R"([coil.pull]
tube  = { inner_radius_mm = 5.5, outer_radius_mm = 12, from_mm = -10, to_mm = 10 }
turns = 300
wire  = { diameter_mm = 0.5 }
[core.plunger]
material = { law = "linear", mu_r = 500 }
cylinder = { radius_mm = 4.5, from_mm = -10, to_mm = 10 }
[motion]
moving          = ["plunger"]
displacement_mm = [0, 20]
[current]
pull_A = [0, 1, 2, 3]
[supply]
voltage_V = 200
current_limit_A = 3
[mechanics]
mass_g = 10
)";

}  // namespace

TEST_CASE("an even force brings a mover out with v = sqrt(2 F s / m), its bar what the force's does over s") {
  const Variant variant{1, 1, {}, even_words, "a", "b"};
  const VariantResult result{"ok", "", even_words, csv_text(even_table())};
  const StrokeOutcome outcome = stroke_of(variant, result, {});
  CHECK(outcome.no_exit == "");
  const double force_N = newton_per_A * 3;
  const Measured speed = outcome.figures.at("exit_speed_m_per_s");
  // 3 A stand after 1e-6 H * 3 A / 200 V = 15 ns of 8 ms
  CHECK(speed.value == near(std::sqrt(2 * force_N * way_m / 0.01), 1e-4));
  CHECK(outcome.figures.at("exit_ms").value == near(1e3 * 2 * way_m / speed.value, 1e-4));
  CHECK(outcome.figures.at("exit_energy_J").value == near(force_N * way_m, 1e-4));
  // counted in steps of a 400th of the stroke
  CHECK(outcome.figures.at("exit_energy_J").error == near(bar_N * way_m, 2e-2));
  CHECK(speed.error == near(bar_N * way_m / (0.01 * speed.value), 3e-2));  // dv = dE / (m v)
  CHECK(outcome.figures.at("stroke_current_A").value == near(3, 1e-6));
}

TEST_CASE("a sensor of the stored table switches the stroke: an even force over half the way") {
  ForceTable table = even_table();
  table.sensors = {"gate"};
  for (Measurement& row : table.rows) row.sensors = {{0, row.displacement}};  // 1 mT a mm
  const std::string device = std::string(even_words) + R"([sensor.gate]
r_mm = 16
z_mm = 10
direction  = "+z"
kind       = "unipolar"
operate_mT = 10
release_mT = 5
)";
  StrokeWish wish;
  wish.choice.off_by = "gate";
  const StrokeOutcome outcome =
      stroke_of(Variant{1, 1, {}, device, "a", "b"}, {"ok", "", device, csv_text(table)}, wish);
  CHECK(outcome.no_exit == "");
  // the current dies in 1e-6 H * 3 A / (motion's 7 V + diode)
  CHECK(outcome.figures.at("exit_speed_m_per_s").value ==
        near(std::sqrt(2 * newton_per_A * 3 * way_m / 2 / 0.01), 1e-3));
}

TEST_CASE("a mover that does not leave has no exit speed, and the reason is told in words") {
  Variant variant{1, 1, {}, even_words, "a", "b"};
  variant.canonical += "dry_friction_N = 100\n";
  const VariantResult result{"ok", "", even_words, csv_text(even_table())};
  const StrokeOutcome outcome = stroke_of(variant, result, {});
  CHECK(outcome.no_exit == "the mover does not leave: after 200 ms it is at 0 mm");
  CHECK(outcome.figures.count("exit_speed_m_per_s") == 0);
  CHECK(outcome.figures.at("stroke_current_A").value == near(3, 1e-6));
}

TEST_CASE(
    "a current beyond the table leaves no figure of the stroke, since no bar covers what is continued") {
  Variant variant{1, 1, {}, even_words, "a", "b"};
  const std::string limit = "current_limit_A = 3";
  variant.canonical.replace(variant.canonical.find(limit), limit.size(), "current_limit_A = 5");
  const VariantResult result{"ok", "", even_words, csv_text(even_table())};
  const StrokeOutcome outcome = stroke_of(variant, result, {});
  CHECK(outcome.no_exit ==
        "the current leaves the table: it reaches 5 A, the table ends at 3 A; widen [current]");
  CHECK(outcome.figures.empty());
}

TEST_CASE(
    "what only changes the use of a device solves no table again, and its strokes are those of a direct "
    "call") {
  const ScratchFolder scratch;
  const std::string words =
      "[vary]\nsupply.voltage_V = [30, 60]\nmechanics.mass_g = [10, 20]\n[goals]\n"
      "exit_speed_m_per_s = \"most\"\nefficiency_percent = \"most\"\n[limits]\nstroke_rise_K = { below = 50 "
      "}\n[stroke]\n";
  VariantStore store(scratch.folder / "variants.db");
  VariantResults results;
  const VariantsFile file = file_of(scratch, stage_words, words + "start_mm = -20\n");
  const VariantPlan plan = plan_variants(file);
  CHECK(solved(file, plan, store, results) == 1);
  CHECK(store.size() == 1);
  const auto speed = [&](std::size_t k) { return results[k]->figures.at("exit_speed_m_per_s").value; };
  CHECK(speed(0) > speed(1));  // the heavier one is slower
  CHECK(speed(2) > speed(0));  // twice the volts are faster

  const DeviceFile device = device_of(plan.variants[2]);
  const ForceTable table = sweep(device.device, {});
  const DriveTable drive = drive_of(table, "");
  const auto heat = heat_advice(device, drive);
  StrokeChoice choice;
  choice.start_mm = -20;
  const StrokePlan direct = plan_stroke(device, table, drive, heat_of_stroke(device, drive, heat), choice);
  const SwitchedRun run =
      simulate_switched_stroke(drive.fit.function, direct.setup, direct.start, direct.options);
  const StrokeFigures figures = stroke_figures(direct, run, drive, table);
  // the stored table has every digit; the integration is asked for 1e-9
  CHECK(speed(2) == near(figures.speed_m_per_s, 1e-7));
  CHECK(results[2]->figures.at("efficiency_percent").value == near(100 * *figures.efficiency, 1e-6));
  const double kinetic = results[2]->figures.at("exit_energy_J").value;
  CHECK(kinetic == near(0.5 * 0.01 * speed(2) * speed(2), 1e-12));
  CHECK(100 * kinetic / run.energy.delivered ==
        near(results[2]->figures.at("efficiency_percent").value, 1e-6));

  const Answers answers = answers_of(file, plan, results);
  CHECK(answers.within.size() == 4);
  CHECK(answers.ranked[0].front() == 2);
  CHECK(answers.effects[0].effects.size() == 2);

  // another start: strokes anew, no table; the same again: neither
  const VariantsFile other = file_of(scratch, stage_words, words + "start_mm = -15\n");
  const VariantPlan replanned = plan_variants(other);
  CHECK(replanned.variants[0].key == plan.variants[0].key);
  CHECK(replanned.variants[0].stroke_key != plan.variants[0].stroke_key);
  const double before = speed(2);
  CHECK(solved(other, replanned, store, results) == 0);
  CHECK(speed(2) < before);  // less way
  const VariantsFile spelt_out =
      file_of(scratch, stage_words, words + "start_m = -0.02\nstages = 1\nuntil_ms = 200\n");
  CHECK(plan_variants(spelt_out).variants[0].stroke_key == plan.variants[0].stroke_key);

  VariantStore merged(scratch.folder / "merged.db");
  {
    VariantStore closed = std::move(store);  // ends the lock
  }
  merged.merge_from(scratch.folder / "variants.db");
  CHECK(merged.find_stroke(plan.variants[2].stroke_key)->figures.at("exit_speed_m_per_s").value == before);
}

TEST_CASE("best = true leaves no variant slower than the plain switching, and says where it switches") {
  const ScratchFolder scratch;
  VariantStore store(scratch.folder / "variants.db");
  VariantResults plain, best;
  const std::string words = "[vary]\nmechanics.mass_g = [5]\n[stroke]\nstart_mm = -20\n";
  for (const bool looks : {false, true}) {
    const VariantsFile file = file_of(scratch, stage_words, words + (looks ? "best = true\n" : ""));
    solved(file, plan_variants(file), store, looks ? best : plain);
  }
  const Figures &was = plain[0]->figures, &is = best[0]->figures;
  CHECK(is.at("exit_speed_m_per_s").value > was.at("exit_speed_m_per_s").value);
  CHECK(std::abs(was.at("switched_off_mm").value) < 1);  // statics: the middle of the coil, coarsely solved
  CHECK(is.at("switched_off_mm").value < was.at("switched_off_mm").value);  // the current needs time to die
}

TEST_CASE("an exit speed is made better within a range of volts, from the one table that there is") {
  const ScratchFolder scratch;
  const VariantsFile file = file_of(scratch, stage_words, R"([hypercube]
points = 1
supply.voltage_V = { from = 5, to = 25 }
[goals]
exit_speed_m_per_s = "most"
[limits]
stroke_current_A = { below = 15 }
[stroke]
start_mm = -20
[improve]
)");
  const VariantPlan plan = plan_variants(file);
  VariantStore store(scratch.folder / "variants.db");
  VariantResults results;
  solved(file, plan, store, results);
  const Answers answers = answers_of(file, plan, results);
  REQUIRE(!answers.within.empty());
  const auto improved = improve(file, plan, results, answers.ranked.front(), store);
  CHECK(store.size() == 1);
  const Figures& best = improved[0].result.figures;
  CHECK(best.at("exit_speed_m_per_s").value > results[0]->figures.at("exit_speed_m_per_s").value);
  CHECK(best.at("stroke_current_A").value < 15);
  // more volts are faster until the limit of the current: it is reached
  CHECK(best.at("stroke_current_A").value > 14.5);
}
