// SPDX-License-Identifier: GPL-3.0-or-later
#include "materials/law_from_numbers.hpp"

#include <algorithm>
#include <type_traits>

#include "materials/bad_material.hpp"
#include "materials/detail/nearest_name.hpp"
#include "materials/detail/require_number.hpp"

namespace coilpull {

namespace {

struct Kind {
  std::string name;                   ///< empty: points
  std::vector<std::string> required;  ///< keys of numbers
  std::vector<std::string> optional;
};

std::vector<Kind> all_kinds() {
  return {{"linear", {"mu_r"}, {}},
          {"froehlich", {"saturation_polarization_T", "half_field_A_per_m"}, {}},
          {"brauer", {"k1", "k2", "k3"}, {"tail_from_T", "saturation_polarization_T"}},
          {"langevin", {"saturation_polarization_T", "shape_field_A_per_m"}, {}},
          {"arctangent", {"saturation_polarization_T", "initial_susceptibility"}, {}},
          {"", {}, {"saturation_polarization_T", "initial_permeability"}}};
}

bool contains(const std::vector<std::string>& list, const std::string& word) {
  return std::find(list.begin(), list.end(), word) != list.end();
}

std::vector<std::string> both(std::vector<std::string> words, const std::vector<std::string>& more) {
  words.insert(words.end(), more.begin(), more.end());
  return words;
}

std::string listed(const std::vector<std::string>& words) {
  std::string text;
  for (const std::string& word : words) text += (text.empty() ? "" : ", ") + word;
  return text;
}

std::string in_words(const Kind& kind) {
  return kind.name.empty() ? "a B-H table" : "law = \"" + kind.name + "\"";
}

Kind kind_of(const std::string& law) {
  const std::vector<Kind> kinds = all_kinds();
  for (const Kind& kind : kinds)
    if (kind.name == law) return kind;
  std::vector<std::string> names;
  for (const Kind& kind : kinds)
    if (!kind.name.empty()) names.push_back(kind.name);
  const std::optional<std::string> meant = detail::nearest_name(law, names);
  throw BadMaterial("law", "law = \"" + law + "\": unknown law" +
                               (meant ? "; did you mean \"" + *meant + "\"?" : "") +
                               " Allowed: " + listed(names) + ", or the lists h_A_per_m and b_T without law");
}

void check_keys(const Kind& kind, const LawNumbers& numbers) {
  for (const auto& [key, value] : numbers.numbers)
    if (!contains(kind.required, key) && !contains(kind.optional, key))
      throw BadMaterial(key, key + ": not a key of " + in_words(kind) + ". It takes " +
                                 (kind.name.empty() ? "h_A_per_m, b_T, " : "") +
                                 listed(both(kind.required, kind.optional)));
  for (const std::string& key : kind.required)
    if (numbers.numbers.count(key) == 0)
      throw BadMaterial(key, key + " is missing: " + in_words(kind) + " needs " + listed(kind.required));
  if (kind.name.empty()) return;
  if (!numbers.h_A_per_m.empty())
    throw BadMaterial("h_A_per_m", "h_A_per_m: give either points or a law, not both");
  if (!numbers.b_T.empty()) throw BadMaterial("b_T", "b_T: give either points or a law, not both");
}

/// What stands under the key, if anything.
std::optional<double> given(const LawNumbers& numbers, const char* key) {
  const auto found = numbers.numbers.find(key);
  return found == numbers.numbers.end() ? std::nullopt : std::optional(found->second);
}

SoftLaw brauer(const LawNumbers& numbers, std::optional<double> saturation_polarization_T) {
  const std::optional<double> from = given(numbers, "tail_from_T");
  if (from.has_value() != saturation_polarization_T.has_value())
    throw BadMaterial(from ? "tail_from_T" : "saturation_polarization_T",
                      "a tail of law = \"brauer\" needs both tail_from_T and saturation_polarization_T");
  std::optional<BrauerLaw::Tail> tail;
  if (from) tail = {*from, *saturation_polarization_T};
  return BrauerLaw(numbers.numbers.at("k1"), numbers.numbers.at("k2"), numbers.numbers.at("k3"), tail);
}

SoftLaw curve_through(const LawNumbers& numbers, std::optional<double> saturation_polarization_T) {
  const std::vector<double>&h = numbers.h_A_per_m, &b = numbers.b_T;
  if (h.empty() && b.empty())
    throw BadMaterial("law", "no magnetic law: give law = \"...\", or the lists h_A_per_m and b_T");
  if (h.size() != b.size())
    throw BadMaterial("b_T", "b_T has " + std::to_string(b.size()) + " numbers and h_A_per_m " +
                                 std::to_string(h.size()) + ": they must be as many");
  std::vector<BhCurve::Point> points;
  for (std::size_t i = 0; i < h.size(); ++i) points.push_back({h[i], b[i]});
  return BhCurve(points, saturation_polarization_T, given(numbers, "initial_permeability"));
}

}  // namespace

SoftLaw make_law(const LawNumbers& numbers) {
  const Kind kind = kind_of(numbers.law);
  check_keys(kind, numbers);
  const auto number = [&](const char* key) { return numbers.numbers.at(key); };
  if (kind.name == "linear") return LinearLaw(number("mu_r"));

  std::optional<double> js;
  if (numbers.numbers.count("saturation_polarization_T") > 0)
    js = detail::require_at_most(5, "saturation_polarization_T", number("saturation_polarization_T"),
                                 "no material exceeds 2.5 T; is the number in tesla?");
  if (kind.name == "brauer") return brauer(numbers, js);
  if (kind.name == "froehlich") return FroehlichLaw(*js, number("half_field_A_per_m"));
  if (kind.name == "langevin") return LangevinLaw(*js, number("shape_field_A_per_m"));
  if (kind.name == "arctangent") return ArctangentLaw(*js, number("initial_susceptibility"));
  return curve_through(numbers, js);
}

std::vector<std::string> law_keys() {
  std::vector<std::string> keys = {"law", "h_A_per_m", "b_T"};
  for (const Kind& kind : all_kinds())
    for (const std::string& key : both(kind.required, kind.optional))
      if (!contains(keys, key)) keys.push_back(key);
  return keys;
}

std::optional<double> saturation_polarization(const SoftLaw& law) {
  return std::visit(
      [](const auto& any) -> std::optional<double> {
        if constexpr (std::is_same_v<std::decay_t<decltype(any)>, LinearLaw>)
          return {};
        else
          return any.saturation_polarization();
      },
      law);
}

void check_magnet(double remanence_T, double recoil_permeability) {
  detail::require_above(0, "remanence_T", remanence_T);
  detail::require_at_most(3, "remanence_T", remanence_T, "no magnet exceeds 1.6 T; is the number in tesla?");
  detail::require_at_least(1, "recoil_permeability", recoil_permeability);
  detail::require_at_most(10, "recoil_permeability", recoil_permeability,
                          "a straight recoil line is 1.0 to 1.3 for sintered magnets, up to 7 for alnico");
}

}  // namespace coilpull
