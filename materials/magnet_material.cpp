// SPDX-License-Identifier: GPL-3.0-or-later
#include "materials/magnet_material.hpp"

#include "materials/constants.hpp"
#include "materials/detail/material_file.hpp"
#include "materials/detail/number_text.hpp"
#include "materials/law_from_numbers.hpp"

namespace coilpull {

namespace {

using detail::MaterialFile;
using detail::number_text;

/// value (1 + coefficient (T - 20)).
double at_temperature(double value, const std::optional<double>& coefficient, double temperature_degC,
                      const std::string& what) {
  if (temperature_degC == 20) return value;
  const std::string key = what + "_coefficient_per_K";
  if (!coefficient)
    throw BadMaterial("temperature_degC", "temperature_degC = " + number_text(temperature_degC) +
                                              ": the material does not state " + key +
                                              ", so only 20 is possible");
  const double warm = value * (1 + *coefficient * (temperature_degC - 20));
  if (!(warm > 0))
    throw BadMaterial("temperature_degC", "temperature_degC = " + number_text(temperature_degC) + ": with " +
                                              key + " = " + number_text(*coefficient) +
                                              " nothing would be left");
  return warm;
}

void read_remanence(const MaterialFile& file, MagnetMaterial& magnet) {
  for (const char* key : {"remanence_T", "recoil_permeability"})
    if (!file.number(key)) file.refuse(key, std::string(key) + " is missing: a magnet needs it");
  magnet.remanence_T = *file.number("remanence_T");
  magnet.recoil_permeability = *file.number("recoil_permeability");
  file.with_place([&] { check_magnet(magnet.remanence_T, magnet.recoil_permeability); });
  magnet.remanence_low_T = file.number_above_0("remanence_low_T");
  magnet.remanence_high_T = file.number_above_0("remanence_high_T");
  if (magnet.remanence_low_T && *magnet.remanence_low_T > magnet.remanence_T)
    file.refuse("remanence_low_T", "remanence_low_T: must not be above remanence_T");
  if (magnet.remanence_high_T && *magnet.remanence_high_T < magnet.remanence_T)
    file.refuse("remanence_high_T", "remanence_high_T: must not be below remanence_T");
}

}  // namespace

MagnetMaterial read_magnet(const std::filesystem::path& path) {
  const MaterialFile file(path);
  std::vector<std::string> allowed = MaterialFile::word_keys();
  for (const char* key :
       {"remanence_T", "recoil_permeability", "remanence_low_T", "remanence_high_T", "coercivity_A_per_m",
        "intrinsic_coercivity_A_per_m", "squareness", "remanence_coefficient_per_K",
        "intrinsic_coercivity_coefficient_per_K", "max_temperature_degC", "density_kg_per_m3"})
    allowed.push_back(key);
  file.refuse_other_keys(allowed);
  MagnetMaterial magnet;
  static_cast<MaterialWords&>(magnet) = file.words();
  read_remanence(file, magnet);
  magnet.coercivity_A_per_m = file.number_above_0("coercivity_A_per_m");
  magnet.intrinsic_coercivity_A_per_m = file.number_above_0("intrinsic_coercivity_A_per_m");
  magnet.squareness = file.number_above_0("squareness");
  if (magnet.squareness && *magnet.squareness > 1)
    file.refuse("squareness", "squareness: the knee field over the intrinsic coercivity is at most 1");
  magnet.remanence_coefficient_per_K = file.number("remanence_coefficient_per_K");
  magnet.intrinsic_coercivity_coefficient_per_K = file.number("intrinsic_coercivity_coefficient_per_K");
  magnet.max_temperature_degC = file.number("max_temperature_degC");
  magnet.density_kg_per_m3 = file.number_above_0("density_kg_per_m3");
  return magnet;
}

RecoilLine recoil_line_at(const MagnetMaterial& magnet, double temperature_degC) {
  if (magnet.max_temperature_degC && temperature_degC > *magnet.max_temperature_degC)
    throw BadMaterial("temperature_degC", "temperature_degC = " + number_text(temperature_degC) +
                                              ": the material is not to be used above " +
                                              number_text(*magnet.max_temperature_degC) + " degC");
  RecoilLine line{
      at_temperature(magnet.remanence_T, magnet.remanence_coefficient_per_K, temperature_degC, "remanence"),
      magnet.recoil_permeability,
      {}};
  if (!magnet.intrinsic_coercivity_A_per_m || !magnet.squareness) return line;
  const double hcj =
      at_temperature(*magnet.intrinsic_coercivity_A_per_m, magnet.intrinsic_coercivity_coefficient_per_K,
                     temperature_degC, "intrinsic_coercivity");
  line.knee_T = line.remanence_T - mu0 * line.recoil_permeability * *magnet.squareness * hcj;
  return line;
}

}  // namespace coilpull
