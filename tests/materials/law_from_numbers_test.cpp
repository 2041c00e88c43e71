// SPDX-License-Identifier: GPL-3.0-or-later
#include "materials/law_from_numbers.hpp"

#include "materials/bad_material.hpp"
#include "tests/near.hpp"

using namespace coilpull;

namespace {

/// "key | words" of the refusal.
std::string refusal(const LawNumbers& numbers) {
  try {
    make_law(numbers);
  } catch (const BadMaterial& bad) {
    return bad.key + (bad.element ? "[" + std::to_string(*bad.element) + "]" : "") + " | " + bad.what();
  }
  return "accepted";
}

}  // namespace

TEST_CASE("the numbers of each law make that law") {
  const double b = 1.3;
  const auto same = [b](const LawNumbers& numbers, const SoftLaw& law) {
    CHECK(evaluate(make_law(numbers), b).h == evaluate(law, b).h);
  };
  same({"linear", {{"mu_r", 1000}}, {}, {}}, LinearLaw(1000));
  same({"froehlich", {{"saturation_polarization_T", 2.1}, {"half_field_A_per_m", 500}}, {}, {}},
       FroehlichLaw(2.1, 500));
  same({"brauer", {{"k1", 0.5}, {"k2", 2.8}, {"k3", 300}}, {}, {}}, BrauerLaw(0.5, 2.8, 300));
  same({"langevin", {{"saturation_polarization_T", 2.1}, {"shape_field_A_per_m", 200}}, {}, {}},
       LangevinLaw(2.1, 200));
  same({"arctangent", {{"saturation_polarization_T", 2.1}, {"initial_susceptibility", 2000}}, {}, {}},
       ArctangentLaw(2.1, 2000));
  same({"", {{"saturation_polarization_T", 2.1}}, {0, 100}, {0, 1}}, BhCurve({{0, 0}, {100, 1}}, 2.1));
}

TEST_CASE("numbers that make no law are refused by key, with what is allowed") {
  CHECK(refusal({"frohlich", {}, {}, {}}) ==
        "law | law = \"frohlich\": unknown law; did you mean \"froehlich\"? Allowed: linear, froehlich, "
        "brauer, langevin, "
        "arctangent, or the lists h_A_per_m and b_T without law");
  CHECK(refusal({"froehlich", {{"saturation_polarization_T", 2.1}}, {}, {}}) ==
        "half_field_A_per_m | half_field_A_per_m is missing: law = \"froehlich\" needs "
        "saturation_polarization_T, "
        "half_field_A_per_m");
  CHECK(refusal({"linear", {{"mu_r", 1000}, {"k1", 1}}, {}, {}}) ==
        "k1 | k1: not a key of law = \"linear\". It takes mu_r");
  CHECK(refusal({"froehlich", {{"saturation_polarization_T", 2100}, {"half_field_A_per_m", 500}}, {}, {}}) ==
        "saturation_polarization_T | saturation_polarization_T = 2100: must be at most 5: no material "
        "exceeds 2.5 T; is "
        "the number in tesla?");
  const LawNumbers brauer{"brauer", {{"k1", 0.5}, {"k2", 2.8}, {"k3", 300}}, {}, {}};
  const auto with = [&](std::map<std::string, double> more) {
    LawNumbers numbers = brauer;
    numbers.numbers.merge(more);
    return refusal(numbers);
  };
  CHECK(with({{"tail_from_T", 1.5}}) ==
        "tail_from_T | a tail of law = \"brauer\" needs both tail_from_T and saturation_polarization_T");
  CHECK(with({{"saturation_polarization_T", 2}}) ==
        "saturation_polarization_T | a tail of law = \"brauer\" needs both tail_from_T and "
        "saturation_polarization_T");
  CHECK(with({{"tail_from_T", 5}, {"saturation_polarization_T", 2}})
            .find("tail_from_T | tail_from_T = 5: must be above 0 and below ") == 0);
  CHECK(refusal({"linear", {{"mu_r", 1000}}, {0, 1}, {}}) ==
        "h_A_per_m | h_A_per_m: give either points or a law, not both");
  CHECK(refusal({"", {}, {}, {}}) ==
        "law | no magnetic law: give law = \"...\", or the lists h_A_per_m and b_T");
  CHECK(refusal({"", {}, {0, 1}, {0}}) == "b_T | b_T has 1 numbers and h_A_per_m 2: they must be as many");
  CHECK(refusal({"", {}, {0, 100, 90}, {0, 1, 1.1}}) ==
        "h_A_per_m[2] | point 3 (H = 90 A/m, B = 1.1 T): H must rise; the point before has 100 A/m");
}

TEST_CASE("a magnet with a remanence in millitesla or a recoil permeability below vacuum is refused") {
  CHECK_NOTHROW(check_magnet(1.2, 1.05));
  CHECK_THROWS_WITH_AS(
      check_magnet(1200, 1.05),
      "remanence_T = 1200: must be at most 3: no magnet exceeds 1.6 T; is the number in tesla?", BadMaterial);
  CHECK_THROWS_WITH_AS(check_magnet(-1.2, 1.05), "remanence_T = -1.2: must be a finite number above 0",
                       BadMaterial);
  CHECK_THROWS_WITH_AS(check_magnet(1.2, 0.9),
                       "recoil_permeability = 0.9: must be a finite number of at least 1", BadMaterial);
}
