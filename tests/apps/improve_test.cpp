// SPDX-License-Identifier: GPL-3.0-or-later
#include "apps/variants/improve.hpp"

#include <doctest/doctest.h>

#include <algorithm>
#include <array>
#include <cmath>

#include "apps/comparison/row_weights.hpp"
#include "apps/output/improved_text.hpp"
#include "apps/variants/figure_slopes.hpp"
#include "apps/variants/pulse_figures.hpp"
#include "apps/variants/solve_variants.hpp"
#include "solver/sweep/crew.hpp"
#include "tests/apps/scratch_folder.hpp"
#include "tests/near.hpp"

using namespace coilpull;

namespace {

/// A small magnet before a loop of 20 mm radius. All numbers are invented.
const char* const loop_words = R"([coil.loop]
tube  = { inner_radius_mm = 19.6, outer_radius_mm = 20.4, from_mm = -0.4, to_mm = 0.4 }
turns = 10
[magnet.bead]
material   = { remanence_T = 1.2, recoil_permeability = 1 }
cylinder   = { radius_mm = 1, from_mm = 0, to_mm = 2 }
magnetised = "+z"
[motion]
moving          = ["bead"]
displacement_mm = [0]
[current]
loop_A = [5]
)";

/// A sleeve and its winding that follows it, a magnet to be drawn in. All numbers are invented.
const char* const sleeve_words = R"(tolerance = 0.0005
[core.sleeve]
material = { law = "froehlich", saturation_polarization_T = 2.1, half_field_A_per_m = 500 }
tube     = { inner_radius_mm = 5.5, outer_radius_mm = 7, from_mm = -14, to_mm = 14 }
[coil.drive]
tube  = { inner_radius_mm = 7.5, outer_radius_mm = 12.5, from_mm = -12, to_mm = 12 }
turns = 180
wire  = { diameter_mm = 0.6, insulation = "grade 2" }
[magnet.plunger]
material   = { remanence_T = 1.2, recoil_permeability = 1.05 }
cylinder   = { radius_mm = 4.5, from_mm = -30, to_mm = -20 }
magnetised = "+z"
[motion]
moving          = ["plunger"]
displacement_mm = [3, 6, 9]
[current]
drive_A = [0, 6]
)";

struct Run {
  VariantsFile file;
  VariantPlan plan;
  VariantStore store;
  VariantResults results = {};
  Answers answers = {};

  Run(const ScratchFolder& scratch, const std::string& device, const std::string& words)
      : file(read(scratch, device, words)), plan(plan_variants(file)), store(scratch.folder / "variants.db") {
    std::vector<const Variant*> all;
    for (const Variant& variant : plan.variants) all.push_back(&variant);
    solve_variants(all, store);
    for (const Variant& variant : plan.variants) results.push_back(store.find(variant.key));
    answers = answers_of(file, plan, results);
  }
  std::vector<Improvement> improved() { return improve(file, plan, results, answers.ranked.front(), store); }

private:
  static VariantsFile read(const ScratchFolder& scratch, const std::string& device,
                           const std::string& words) {
    scratch.write("device.toml", device);
    return read_variants_file(scratch.write("many.toml", "device = \"device.toml\"\n" + words));
  }
};

}  // namespace

TEST_CASE("a small magnet is moved to where a loop pulls it most, half a radius before it") {
  // Closed form: B = mu0 I a^2 / (2 (a^2 + z^2)^1.5) on the axis, so that a dipole's force goes with
  // z / (a^2 + z^2)^2.5 and is largest at z = a / 2. Magnet and winding are a tenth and a fiftieth of a.
  const ScratchFolder scratch;
  Run run(scratch, loop_words, R"([vary]
magnet.bead.cylinder.from_mm = { from = 1, to = 29, points = 3 }
[follow]
magnet.bead.cylinder.to_mm = { key = "magnet.bead.cylinder.from_mm", plus = 2 }
[goals]
pull_N = "most"
[improve]
starts = 1
)");
  const std::vector<Improvement> improved = run.improved();
  REQUIRE(improved.size() == 1);
  const auto share = [](double u) { return u / std::pow(1 + u * u, 2.5); };
  const double middle = std::stod(improved[0].best.values[0]) + 1;
  CHECK(share(middle / 20) > (1 - 2e-3) * share(0.5));  // the bar: 1e-3
  CHECK(middle == near(10, 0.1));                       // relative: the force is flat there
  CHECK(
      differ(run.results[improved[0].start]->figures.at("pull_N"), improved[0].result.figures.at("pull_N")));

  const std::size_t stored = run.store.size();
  const std::vector<Improvement> again = run.improved();
  CHECK(run.store.size() == stored);  // every table was found
  CHECK(again[0].best.key == improved[0].best.key);
}

TEST_CASE("a better design keeps to the limits and gives nothing of the other goals away") {
  const ScratchFolder scratch;
  Run run(scratch, sleeve_words, R"([hypercube]
points = 2
core.sleeve.tube.outer_radius_mm = { from = 6.5, to = 7.2 }
core.sleeve.tube.inner_radius_mm = { from = 5.2, to = 5.8 }
[set]
tolerance = 0.01
[follow]
coil.drive.tube.inner_radius_mm = { key = "core.sleeve.tube.outer_radius_mm", plus = 0.3 }
[goals]
switched_work_J = "most"
wire_g = "least"
[limits]
core_cm3 = { below = 2.1 }
[improve]
starts = 1
)");
  REQUIRE(!run.answers.within.empty());
  const std::vector<Improvement> improved = run.improved();
  const VariantResult &start = *run.results[improved[0].start], &best = improved[0].result;
  CHECK(best.figures.at("switched_work_J").value > start.figures.at("switched_work_J").value);
  CHECK(best.figures.at("wire_g").value <= start.figures.at("wire_g").value);
  CHECK(best.figures.at("core_cm3").value < 2.1);
  CHECK(best_of(run.file, improved) == 0);
}

TEST_CASE("slopes of a force by the adjoint are those between the tables on either side") {
  const ScratchFolder scratch;
  Run run(scratch, sleeve_words, R"([hypercube]
points = 1
core.sleeve.tube.outer_radius_mm = { from = 6.5, to = 7.2 }
core.sleeve.tube.inner_radius_mm = { from = 5.2, to = 5.8 }
magnet.plunger.material.remanence_T = { from = 1, to = 1.3 }
[follow]
coil.drive.tube.inner_radius_mm = { key = "core.sleeve.tube.outer_radius_mm", plus = 0.3 }
[goals]
switched_work_J = "most"
[improve]
)");
  const Variant& design = run.plan.variants[0];
  const std::vector<NumberRange> ranges = ranges_of(run.file);
  std::map<std::string, double> numbers;
  for (std::size_t r = 0; r < ranges.size(); ++r) numbers[ranges[r].path] = std::stod(design.values[r]);
  Crew crew(0, {});
  Mesher mesher;
  const auto solve = [&](const Variant& variant) {
    return solve_variant(variant, crew, [] { return false; });
  };
  FigureSlopes slopes(run.file, run.plan, ranges, design, numbers, *run.results[0], mesher,
                      [&](const Variant&) -> std::optional<VariantResult> {
                        FAIL("a table was asked for where the adjoint knows");
                        return std::nullopt;
                      });
  for (std::size_t r = 0; r < ranges.size(); ++r) {
    const double step = 0.15 * (ranges[r].to - ranges[r].from);
    std::vector<VariantResult> sides;
    for (const double sign : {-1.0, 1.0}) {
      auto beside = numbers;
      beside[ranges[r].path] += sign * step;
      sides.push_back(*solve(changed_design(run.file, run.plan, design, beside)));
    }
    for (const char* figure : {"switched_work_J", "push_N", "least_push_N"}) {
      const double found = slopes.of(figure)[r];
      const Measured low = sides[0].figures.at(figure), high = sides[1].figures.at(figure);
      INFO(std::string(figure) << " by " << ranges[r].path << ": " << found);
      // the bars of both tables, and 2 % for the third derivative and what the adjoint's mesh leaves
      CHECK(std::abs(found - (high.value - low.value) / (2 * step)) <
            (low.error + high.error) / (2 * step) + 0.02 * std::abs(found));
    }
  }
}

TEST_CASE("a winding warms by its current density squared, resistivity over heat capacity of its metal") {
  // IEC 60028: 1.7241e-8 ohm m at 20 degC, 8.89 g/cm3; 385 J/(kg K) from memory. 6 A through 0.6 mm.
  const ScratchFolder scratch;
  const DeviceFile file = open_device_file(scratch.write("device.toml", sleeve_words));
  const double density = 6 / (3.14159265 * 0.3e-3 * 0.3e-3);
  CHECK(figures_of(file.device, {}).at("rise_K_per_s").value ==
        near(1.7241e-8 * density * density / (8890 * 385), 1e-2));
}

TEST_CASE("a winding at a stiff current warms by (e^(alpha k t) - 1) / alpha, k its rate when cold") {
  // dT/dt = k (1 + alpha (T - 20)), nothing flowing away; copper as above, alpha 0.00393 by IEC 60028.
  const ScratchFolder scratch;
  const DeviceFile file =
      open_device_file(scratch.write("device.toml", std::string(sleeve_words) + R"([supply]
current_limit_A = 6
[duty]
pulse_ms = 20000
)"));
  const double rate = figures_of(file.device, {}).at("rise_K_per_s").value;
  const Figures pulse = pulse_figures(file);
  CHECK(pulse.at("pulse_rise_K").value == near((std::exp(0.00393 * rate * 20) - 1) / 0.00393, 1e-3));
  CHECK(pulse.count("steady_degC") == 0);  // no strokes_per_minute
  CHECK(pulse_figures(open_device_file(scratch.write("device.toml", sleeve_words))).empty());
}

TEST_CASE(
    "figures of forces are what a person adds up from the rows, and so are the weights of their slopes") {
  // Rows not in the order of the stroke, one way against the other, a hole. Forces in N at z and i:
  //        0 mm   2 mm   5 mm
  // 0 A     -4      1      2
  // 3 A      6     -1    NaN
  ForceTable table;
  table.circuits = {"drive"};
  table.currents_per_displacement = 2;
  const double nan = std::nan("");
  for (const auto& [z, off, on] : std::vector<std::array<double, 3>>{{5, 2, nan}, {0, -4, 6}, {2, 1, -1}})
    for (const double i : {0.0, 3.0}) {
      Measurement row{};
      row.displacement = 1e-3 * z;
      row.currents_A = {i};
      row.force_N = {i == 0 ? off : on, 0.1};
      table.rows.push_back(row);
    }
  const Figures figures = figures_of({}, table);
  const auto expect = [&](const char* figure, double value, double bar) {
    INFO(std::string(figure));
    CHECK(figures.at(figure).value == near(value, 1e-12));
    CHECK(figures.at(figure).error == near(bar, 1e-12));
    const auto weights = row_weights(figure, table);
    REQUIRE(weights);
    for (const RowWeight& row : *weights) CHECK(row.bar_weight >= std::abs(row.weight));
  };
  expect("force_N", 6, 0.1);
  expect("force_off_N", 4, 0.1);
  expect("push_N", 6, 0.1);
  expect("pull_N", 4, 0.1);
  expect("least_push_N", 1, 0.1);                        // best: 6, 1, 2
  expect("switched_work_J", 7e-3 + 4.5e-3, 0.1 * 5e-3);  // (6 + 1) / 2 * 2 + (1 + 2) / 2 * 3
  expect("work_J", 6e-3, 0.1 * 2e-3);                    // 3 A, plus: 6 / 2 * 2; 0 A: 0.5 * 2 + 4.5, or 4
  CHECK(weighted(*row_weights("pull_N", table), table).value == 4);
  CHECK_FALSE(row_weights("core_T", table));
}
