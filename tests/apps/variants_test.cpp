// SPDX-License-Identifier: GPL-3.0-or-later
#include <doctest/doctest.h>

#include <algorithm>
#include <cmath>
#include <filesystem>
#include <fstream>
#include <set>

#include "apps/device_file/bad_device.hpp"
#include "apps/device_file/canonical_text.hpp"
#include "apps/device_file/editable_text.hpp"
#include "apps/device_file/read_device_file.hpp"
#include "apps/variants/plan.hpp"
#include "apps/variants/seeded_draws.hpp"
#include "tests/apps/scratch_folder.hpp"
#include "tests/near.hpp"

using namespace coilpull;
namespace fs = std::filesystem;

namespace {

const char* const device_words = R"(title = "one"  # Umlaut before a value: Öse
[core.sleeve]
material = "bar.toml"
tube     = { inner_radius_mm = 5.5, outer_radius_mm = 7, from_mm = -14, to_mm = 14 }
[coil.drive]
tube  = { inner_radius_mm = 7.5, outer_radius_mm = 12.5, from_mm = -12, to_mm = 12 }
turns = 180
[magnet.plunger]
material   = { remanence_T = 1.2, recoil_permeability = 1.05 }
cylinder   = { radius_mm = 4.5, from_mm = -30, to_mm = -20 }
magnetised = "+z"
[motion]
moving          = ["plunger"]
displacement_mm = [0,
                   5]
[current]
drive_A = [0, 6]
)";

const char* const bar_words =
    "source = \"invented\"\nlaw = \"froehlich\"\nsaturation_polarization_T = 2.1\nhalf_field_A_per_m = 500\n";

/// The plan of a variants file with these words below the device.
VariantPlan plan_of(const ScratchFolder& scratch, const std::string& words,
                    const std::string& bar = bar_words) {
  scratch.write("device.toml", device_words);
  scratch.write("bar.toml", bar);
  return plan_variants(read_variants_file(scratch.write("many.toml", "device = \"device.toml\"\n" + words)));
}

/// The message, the folder's path taken out.
std::string refusal(const std::string& words) {
  const ScratchFolder scratch;
  try {
    plan_of(scratch, words);
  } catch (const BadDevice& bad) {
    return scratch.without_path(bad.what());
  }
  return "accepted";
}

}  // namespace

TEST_CASE("every value of a device file replaced by itself leaves the text, lists over two lines included") {
  const EditableText text(device_words, "device.toml");
  CHECK(text.paths().size() == 24);
  CHECK(text.with({}) == device_words);
  CHECK(text.with({{"coil.drive.turns", "180"}, {"title", "\"one\""}}) == device_words);
  CHECK(text.with({{"core.sleeve.tube.outer_radius_mm", "7"}, {"current.drive_A", "[0, 6]"}}) ==
        device_words);
  const std::string changed =
      text.with({{"motion.displacement_mm", "[1]"}, {"magnet.plunger.material.remanence_T", "1.3"}});
  CHECK(changed.find("remanence_T = 1.3, recoil") != std::string::npos);
  CHECK(changed.find("displacement_mm = [1]\n[current]") != std::string::npos);
  CHECK(text.number("coil.drive.turns", {}) == 180);
  CHECK(text.number("coil.drive.turns", {{"coil.drive.turns", "90"}}) == 90);
  CHECK_FALSE(text.number("core.sleeve.material", {}));
}

TEST_CASE("variants cross what varies, the first slowest, and keep in step what goes together") {
  const ScratchFolder scratch;
  const VariantPlan plan = plan_of(scratch, R"([vary]
coil.drive.turns = { from = 100, to = 200, points = 2 }
current.drive_A = [[0, 6], [0, 3]]
[[together]]
core.sleeve.tube.outer_radius_mm = [7, 6.5]
coil.drive.tube.inner_radius_mm = [7.5, 7]
)");
  REQUIRE(plan.variants.size() == 8);
  CHECK(plan.variants[0].values == std::vector<std::string>{"100", "[0, 6]", "7", "7.5"});
  CHECK(plan.variants[1].values == std::vector<std::string>{"100", "[0, 6]", "6.5", "7"});
  CHECK(plan.variants[7].values == std::vector<std::string>{"200", "[0, 3]", "6.5", "7"});
  CHECK(plan.variants[7].canonical.find("turns = 200") != std::string::npos);
  std::set<std::string> keys;
  for (const Variant& variant : plan.variants) {
    CHECK(variant.refusal.empty());
    keys.insert(variant.key);
    const DeviceFile read = open_device_text(variant.canonical, "", scratch.folder);
    CHECK(canonical_text(read) == variant.canonical);  // complete by itself
  }
  CHECK(keys.size() == 8);
}

TEST_CASE("a range keeps twelve figures of each step, however small its numbers") {
  const ScratchFolder scratch;
  const VariantPlan plan = plan_of(scratch, R"([vary]
magnet.plunger.material.remanence_T = { from = 1e-11, to = 4e-11, points = 4 }
)");
  REQUIRE(plan.variants.size() == 4);
  CHECK(plan.variants[1].values == std::vector<std::string>{"2e-11"});
  CHECK(plan.variants[2].values == std::vector<std::string>{"3e-11"});
}

TEST_CASE("the key of a variant changes with the bytes of its material file and not with its title") {
  const ScratchFolder scratch;
  const std::string words = "[vary]\ncoil.drive.turns = [100]\n";
  const std::string before = plan_of(scratch, words).variants.front().key;
  CHECK(plan_of(scratch, words).variants.front().key == before);
  CHECK(plan_of(scratch, words + "[set]\ntitle = \"other\"\n").variants.front().key == before);
  const std::string other_bar = std::string(bar_words) + "# measured again\n";
  CHECK(plan_of(scratch, words, other_bar).variants.front().key != before);
}

TEST_CASE("a hypercube has one point in each part of each direction") {
  // McKay, Beckman, Conover (1979): as many equal parts as points, one point each.
  const auto cube = latin_hypercube(40, 3, 5);
  for (std::size_t d = 0; d < 3; ++d) {
    std::vector<int> in_part(40, 0);
    for (const auto& point : cube) ++in_part.at(static_cast<std::size_t>(40 * point[d]));
    CHECK(std::all_of(in_part.begin(), in_part.end(), [](int n) { return n == 1; }));
  }
  CHECK(latin_hypercube(40, 3, 5) == cube);
  CHECK(latin_hypercube(40, 3, 6) != cube);
}

TEST_CASE("normal draws have mean 0 and deviation 1") {
  SeededDraws draws(3);
  double sum = 0, squares = 0;
  const int count = 20000;
  for (int k = 0; k < count; ++k) {
    const double x = draws.normal();
    sum += x, squares += x * x;
  }
  CHECK(std::abs(sum / count) < 0.03);      // four standard errors: 4 / sqrt(20000) = 0.028
  CHECK(squares / count == near(1, 0.04));  // four of sqrt(2 / 20000) = 0.01
}

TEST_CASE("tolerances stray within their reach, from each design by the same draws, the first not at all") {
  const ScratchFolder scratch;
  const VariantPlan plan = plan_of(scratch, R"([vary]
coil.drive.turns = [100, 150]
[tolerances]
draws = 30
seed = 2
core.sleeve.tube.inner_radius_mm = { plus_minus = 0.05 }
)");
  REQUIRE(plan.variants.size() == 60);
  CHECK(plan.variants[0].values[1] == "5.5");
  double least = 9, most = 0;
  for (std::size_t k = 0; k < 30; ++k) {
    CHECK(plan.variants[k].design == 1);
    CHECK(plan.variants[k].values[1] == plan.variants[k + 30].values[1]);
    const double radius = std::stod(plan.variants[k].values[1]);
    least = std::min(least, radius), most = std::max(most, radius);
  }
  CHECK(least >= 5.45);
  CHECK(most <= 5.55);
  CHECK(most - least > 0.07);  // 29 uniform draws leave a third of the range free once in 10 000 times
}

TEST_CASE("a follower keeps its distance, and what is no device stays in the plan with its reason") {
  const ScratchFolder scratch;
  const VariantPlan plan = plan_of(scratch, R"([vary]
core.sleeve.tube.outer_radius_mm = [6.8, 5]
[follow]
coil.drive.tube.inner_radius_mm = { key = "core.sleeve.tube.outer_radius_mm", plus = 0.5 }
)");
  REQUIRE(plan.variants.size() == 2);
  CHECK(plan.variants[0].values == std::vector<std::string>{"6.8", "7.3"});
  CHECK(plan.variants[0].refusal.empty());
  CHECK(plan.variants[1].refusal.find("device.toml:4: [core.sleeve] tube.") != std::string::npos);
}

TEST_CASE("the variants file that explains itself line by line plans devices only") {
  const VariantPlan plan = plan_variants(
      read_variants_file(fs::path(COILPULL_SOURCE_DIR) / "data" / "variants" / "tube_pusher.toml"));
  CHECK(plan.variants.size() == 48);  // 2 steels, 4 numbers of turns, 2 lengths, 3 points
  for (const Variant& variant : plan.variants) CHECK(variant.refusal == "");
}

TEST_CASE("a wrong variants file is refused with its line, key and value, and what is allowed") {
  const std::string unknown = refusal("[vary]\ncoil.drive.turn = [1]\n");
  CHECK(unknown.find("many.toml:3: [vary] coil.drive.turn = [1]: device.toml has no such key; did you mean "
                     "coil.drive.turns?\n  What varies stands in the device file first") == 0);
  CHECK(refusal("") ==
        "many.toml: nothing varies in it.\n  It needs [vary], [[together]], [hypercube] or [tolerances].");
  CHECK(refusal("[vary]\ncoil.drive.turns = 3\n") ==
        "many.toml:3: [vary] coil.drive.turns = 3: needs a list or a range of what it may be.\n  For example "
        "[120, 180], [\"demo soft steel\", \"team 13 steel\"] or { from = 120, to = 240, points = 5 }.");
  CHECK(refusal("[vary]\ncoil.drive.turns = { from = 3, to = 3, points = 2 }\n") ==
        "many.toml:3: [vary] coil.drive.turns.to = 3: has to be greater than from.");
  CHECK(refusal("[vary]\ncoil.drive.turns = [1, 2]\n[set]\ncoil.drive.turns = 3\n") ==
        "many.toml:3: [vary] coil.drive.turns = [1, 2]: line 5 says it for coil.drive.turns already.\n  Each "
        "key of the device file is set, varied or following in one place only.");
  CHECK(
      refusal("[[together]]\ncoil.drive.turns = [1, 2]\ncurrent.drive_A = [[1]]\n")
          .find(
              "many.toml:4: [together] current.drive_A = [[1]]: has 1 values, and coil.drive.turns has 2.") ==
      0);
  CHECK(refusal("[vary]\ncoil.drive.turns = [1, 2]\n[goals]\nwork = \"most\"\n") ==
        "many.toml:5: [goals] work = \"most\": no such figure. Did you mean \"work_J\"?");
  CHECK(refusal("[vary]\ncoil.drive.turns = [1, 2]\n[goals]\nwork_J = \"more\"\n") ==
        "many.toml:5: [goals] work_J = \"more\": has to be \"most\" or \"least\".");
  CHECK(refusal("[tolerances]\ndraws = 2\ncore.sleeve.material = { sigma = 1 }\n") ==
        "many.toml:4: [tolerances] core.sleeve.material = { sigma = 1 }: core.sleeve.material is no number "
        "that could stray.");
  CHECK(refusal("[vary]\ncoil.drive.turns = [1, 2]\n[improve]\nstarts = 1\n") ==
        "many.toml:4: [improve]: there is no goal to come nearer to.\n  Write [goals], for example "
        "switched_work_J = \"most\"; the first is the one that counts.");
  CHECK(refusal("[vary]\ncoil.drive.turns = { from = 1, to = 2, points = 2 }\n[goals]\nwork_J = \"most\"\n"
                "[improve]\n")
            .find("many.toml:6: [improve]: no number has a range.") == 0);
  CHECK(refusal("[vary]\ncoil.drive.turns = [1, 2]\n[goals]\nwork_J = \"most\"\n[improve]\nstarts = 0\n")
            .find("many.toml:7: [improve] starts = 0: has to be a whole number from 1 to ") == 0);
  // what is wrong with the device file is told of the device file, by its own lines
  CHECK(refusal("[vary]\ncurrent.drive_A = [[1]]\n[set]\ncoil.drive.turns = -1\n")
            .find("device.toml:7: [coil.drive] turns = -1: a coil needs at least 1 turn.") == 0);
}
