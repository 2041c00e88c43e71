// SPDX-License-Identifier: GPL-3.0-or-later
#include <string>

#include "tests/materials/material_files.hpp"

using namespace coilpull;

TEST_CASE("a bad steel file is answered with file, line, key, value and what is allowed") {
  CHECK(steel_refusal("source = \"x\"\nlaw = \"linear\"\n\nmu_r = 0.5\n") ==
        "bad.toml:4: mu_r = 0.5: must be a finite number of at least 1");
  CHECK(steel_refusal("law = \"linear\"\nmu_r = 5\n") ==
        "bad.toml: source is missing: say in one line who measured or published the numbers");
  CHECK(steel_refusal("source = \"x\"\nlaw = \"linear\"\nmur = 5\n") ==
        "bad.toml:3: mur: unknown key; did you mean mu_r?");
  CHECK(steel_refusal("source = \"x\"\nlaw = \"linear\"\nmu_r = \"5\"\n") ==
        "bad.toml:3: mu_r: must be a number");
  CHECK(steel_refusal("source = \"x\"\nlaw = \"linear\"\n") ==
        "bad.toml: mu_r is missing: law = \"linear\" needs mu_r");
  CHECK(steel_refusal("source = \"x\"\nh_A_per_m = [0, 100,\n  90]\nb_T = [0, 1, 1.1]\n") ==
        "bad.toml:3: point 3 (H = 90 A/m, B = 1.1 T): H must rise; the point before has 100 A/m");
  CHECK(steel_refusal("source = \"x\"\nh_A_per_m = [0, 100]\nb_T = [0, \"1\"]\n") ==
        "bad.toml:3: b_T: must be a list of numbers");
  CHECK(steel_refusal("source = 5\nlaw = \"linear\"\nmu_r = 5\n") ==
        "bad.toml:1: source: must be a text in quotes, not empty");
  CHECK(steel_refusal("source = \"x\"\nlaw = \"linear\"\nmu_r = 5\ndensity_kg_per_m3 = -1\n") ==
        "bad.toml:4: density_kg_per_m3 = -1: must be a finite number above 0");
  CHECK(steel_refusal("source = \"x\nlaw").rfind("bad.toml:1: not valid TOML: ", 0) == 0);
  CHECK(refusal([] { read_steel("/nowhere/steel.toml"); }) == "/nowhere/steel.toml: no such file");
}

TEST_CASE("a bad magnet file is answered with file, line, key, value and what is allowed") {
  CHECK(magnet_refusal("source = \"x\"\nremanence_T = 1.2\n") ==
        "bad.toml: recoil_permeability is missing: a magnet needs it");
  CHECK(
      magnet_refusal("source = \"x\"\nremanence_T = 1200\nrecoil_permeability = 1.05\n") ==
      "bad.toml:2: remanence_T = 1200: must be at most 3: no magnet exceeds 1.6 T; is the number in tesla?");
  CHECK(magnet_refusal(
            "source = \"x\"\nremanence_T = 1.2\nrecoil_permeability = 1.05\nremanence_high_T = 1.1\n") ==
        "bad.toml:4: remanence_high_T: must not be below remanence_T");
}

TEST_CASE("words of a material file fit on one line and turn nothing round") {
  const std::string law = "law = \"linear\"\nmu_r = 5\n";
  CHECK(steel_refusal("source = \"a\\u0007b\"\n" + law) ==
        "bad.toml:1: source: has a control character, or a line break, as letter 2");
  CHECK(steel_refusal("source = \"ab\\u202Ec\"\n" + law) ==
        "bad.toml:1: source: has a character that turns the direction of writing, as letter 3");
  CHECK(steel_refusal("source = \"" + std::string(3000, 'x') + "\"\n" + law)
            .find("bad.toml:1: source: has 3000 letters; at most ") == 0);
}

TEST_CASE("a material file has a size and a depth of keys up to which it is read") {
  CHECK(steel_refusal(std::string((std::size_t{4} << 20) + 1, '#')) ==
        "bad.toml: cannot be read, or is larger than 4 MiB");
  std::string deep = "source = \"\"\"two quotes end it\"\"\"\"\"\na";
  for (int i = 0; i < 2000; ++i) deep += ".a";
  CHECK(steel_refusal(deep + " = 1\n").find("bad.toml:2: a key has more than ") == 0);
}

TEST_CASE("limits and bounds of a steel that contradict each other are refused") {
  const std::string good = "source = \"x\"\nlaw = \"linear\"\nmu_r = 5\n";
  CHECK(steel_refusal(good) == "accepted");
  CHECK(steel_refusal(good + "range_from_A_per_m = -1\n") ==
        "bad.toml:4: range_from_A_per_m: must be at least 0");
  CHECK(steel_refusal(good + "range_from_A_per_m = 10\nrange_to_A_per_m = 10\n") ==
        "bad.toml:5: range_to_A_per_m: must be above range_from_A_per_m");
  CHECK(steel_refusal(good + "pair = \"p\"\n") ==
        "bad.toml:4: bound: must be \"weak\" or \"strong\" for a member of the pair \"p\"");
  CHECK(steel_refusal(good + "pair = \"p\"\nbound = \"middling\"\n") ==
        "bad.toml:5: bound: must be \"weak\" or \"strong\" for a member of the pair \"p\"");
  CHECK(steel_refusal(good + "bound = \"weak\"\n") ==
        "bad.toml:4: bound: needs pair, the name that both bounds share");
  CHECK(steel_refusal(good + "certainty = \"sure\"\n") ==
        "bad.toml:4: certainty = \"sure\": must start with read, recomputed, memory, estimate or invented; a "
        "colon "
        "and the reason may follow");
}

TEST_CASE("limits of a magnet that contradict each other are refused") {
  const std::string good = "source = \"x\"\nremanence_T = 1.2\nrecoil_permeability = 1.05\n";
  CHECK(magnet_refusal(good + "remanence_low_T = 1.3\n") ==
        "bad.toml:4: remanence_low_T: must not be above remanence_T");
  CHECK(magnet_refusal(good + "squareness = 1.1\n") ==
        "bad.toml:4: squareness: the knee field over the intrinsic coercivity is at most 1");
}
