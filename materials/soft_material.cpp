// SPDX-License-Identifier: GPL-3.0-or-later
#include "materials/soft_material.hpp"

#include "materials/detail/material_file.hpp"
#include "materials/law_from_numbers.hpp"

namespace coilpull {

namespace {

using detail::MaterialFile;

LawNumbers law_numbers(const MaterialFile& file) {
  LawNumbers law{file.text("law", ""), {}, file.numbers("h_A_per_m"), file.numbers("b_T")};
  for (const std::string& key : law_keys())
    if (key != "law" && key != "h_A_per_m" && key != "b_T")
      if (const std::optional<double> number = file.number(key)) law.numbers[key] = *number;
  return law;
}

std::optional<PairMember> read_member(const MaterialFile& file) {
  const std::string pair = file.text("pair", ""), bound = file.text("bound", "");
  if (pair.empty() && bound.empty()) return std::nullopt;
  if (pair.empty()) file.refuse("bound", "bound: needs pair, the name that both bounds share");
  for (const Bound each : {Bound::weak, Bound::strong})
    if (bound == word_for(each)) return PairMember{pair, each};
  file.refuse(bound.empty() ? "pair" : "bound",
              "bound: must be \"weak\" or \"strong\" for a member of the pair \"" + pair + "\"");
}

}  // namespace

const char* word_for(Bound bound) { return bound == Bound::weak ? "weak" : "strong"; }

SoftMaterial read_steel(const std::filesystem::path& path) {
  const MaterialFile file(path);
  std::vector<std::string> allowed = law_keys();
  for (const std::string& key : MaterialFile::word_keys()) allowed.push_back(key);
  for (const char* key : {"density_kg_per_m3", "resistivity_ohm_m", "bulk_source", "range_from_A_per_m",
                          "range_to_A_per_m", "coercive_field_A_per_m", "pair", "bound"})
    allowed.push_back(key);
  file.refuse_other_keys(allowed);
  const LawNumbers numbers = law_numbers(file);
  SoftMaterial steel{{}, file.with_place([&] { return make_law(numbers); })};
  static_cast<MaterialWords&>(steel) = file.words();
  steel.saturation_polarization_T = file.number("saturation_polarization_T");
  if (!std::holds_alternative<BhCurve>(steel.law))
    steel.saturation_polarization_T = saturation_polarization(steel.law);
  steel.range_from_A_per_m = file.number("range_from_A_per_m");
  steel.range_to_A_per_m = file.number_above_0("range_to_A_per_m");
  if (steel.range_from_A_per_m && !(*steel.range_from_A_per_m >= 0))
    file.refuse("range_from_A_per_m", "range_from_A_per_m: must be at least 0");
  if (steel.range_to_A_per_m && steel.range_from_A_per_m.value_or(0) >= *steel.range_to_A_per_m)
    file.refuse("range_to_A_per_m", "range_to_A_per_m: must be above range_from_A_per_m");
  steel.coercive_field_A_per_m = file.number_above_0("coercive_field_A_per_m");
  steel.density_kg_per_m3 = file.number_above_0("density_kg_per_m3");
  steel.resistivity_ohm_m = file.number_above_0("resistivity_ohm_m");
  steel.bulk_source = file.text("bulk_source", "not stated");
  steel.member = read_member(file);
  return steel;
}

}  // namespace coilpull
