// SPDX-License-Identifier: GPL-3.0-or-later
#include "apps/output/material_text.hpp"

#include <algorithm>
#include <cmath>
#include <optional>
#include <vector>

#include "apps/output/bh_picture.hpp"
#include "apps/output/number_text.hpp"
#include "apps/output/padded.hpp"
#include "materials/constants.hpp"

namespace coilpull {
namespace {

std::string line(const std::string& label, const std::string& words) {
  return "  " + padded(label, 14) + words + "\n";
}

std::string or_unknown(const std::optional<double>& value, const std::string& unit, double factor = 1) {
  return value ? rounded(factor * *value, 4) + " " + unit : "not stated";
}

std::string head(const MaterialWords& words) {
  std::string also;
  for (const std::string& name : words.also_called) also += (also.empty() ? "" : ", ") + name;
  return words.name + (also.empty() ? "" : " (also " + also + ")") + "\n" + line("family", words.family) +
         line("source", words.source) + line("certainty", words.certainty) +
         line("holds for", words.condition) + line("do not use", words.beyond);
}

std::string law_words(const SoftLaw& law) {
  const auto* curve = std::get_if<BhCurve>(&law);
  if (!curve) return kind_of(law);
  return "table of " + std::to_string(curve->points().size()) + " points" +
         (curve->initial_permeability() ? ", from a Rayleigh parabola of initial permeability " +
                                              rounded(*curve->initial_permeability(), 4)
                                        : "");
}

std::string permeability_lines(const SoftLaw& law) {
  std::string text = "  H (A/m)       B (T)     mu_r\n";
  for (const double h : {10.0, 100.0, 300.0, 1e3, 3e3, 1e4, 3e4, 1e5}) {
    const double b = flux_density(law, h);
    text += "  " + padded(rounded(h, 6), 14) + padded(rounded(b, 4), 10) + rounded(b / (mu0 * h), 4) + "\n";
  }
  return text;
}

std::string recoil_line_text(const MagnetMaterial& magnet, double degC) {
  const RecoilLine recoil = recoil_line_at(magnet, degC);
  return line("at " + rounded(degC, 4) + " degC",
              "remanence " + rounded(recoil.remanence_T, 4) + " T, " +
                  (recoil.knee_T ? "knee at B = " + rounded(*recoil.knee_T, 3) + " T, H = " +
                                       rounded(1e-3 * (*recoil.knee_T - recoil.remanence_T) /
                                                   (mu0 * recoil.recoil_permeability),
                                               4) +
                                       " kA/m"
                                 : "knee not known"));
}

template <class Material>
std::string row_of(const Material& material) {
  return "  " + padded(material.name, 34) + padded(word_for(material.evidence), 12) + material.family + "\n";
}

}  // namespace

std::string catalogue_text(const Catalogue& catalogue) {
  std::string text = "Soft-magnetic:                      certainty   family\n", magnets, pairs;
  for (const std::string& name : catalogue.steel_names()) text += row_of(catalogue.steel(name));
  for (const std::string& name : catalogue.pair_names()) pairs += "  " + name + "\n";
  for (const std::string& name : catalogue.magnet_names()) magnets += row_of(catalogue.magnet(name));
  return text +
         "\nKnown only as a pair of bounds, NAME, weak and NAME, strong; the truth lies between them:\n" +
         pairs + "\nMagnets:\n" + magnets;
}

std::string soft_material_text(const SoftMaterial& steel) {
  std::string text = head(steel) + line("law", law_words(steel.law));
  if (steel.member)
    text += line("bound", std::string("the ") + word_for(steel.member->bound) + " one of the pair \"" +
                              steel.member->pair + "\"");
  text += line("source speaks", "from " + or_unknown(steel.range_from_A_per_m, "A/m") + " to " +
                                    or_unknown(steel.range_to_A_per_m, "A/m"));
  text += line("saturation", or_unknown(steel.saturation_polarization_T, "T of polarization"));
  text += line("coercive field", or_unknown(steel.coercive_field_A_per_m, "A/m"));
  text +=
      line("density", or_unknown(steel.density_kg_per_m3, "kg/m3") + "; resistivity " +
                          or_unknown(steel.resistivity_ohm_m, "microohm m", 1e6) + "; " + steel.bulk_source);
  return text + permeability_lines(steel.law);
}

std::string magnet_material_text(const MagnetMaterial& magnet) {
  std::string text = head(magnet);
  text += line("remanence", rounded(magnet.remanence_T, 4) + " T at 20 degC" +
                                (magnet.remanence_low_T && magnet.remanence_high_T
                                     ? ", grade from " + rounded(*magnet.remanence_low_T, 4) + " to " +
                                           rounded(*magnet.remanence_high_T, 4) + " T"
                                     : ""));
  text += line("recoil", "relative permeability " + rounded(magnet.recoil_permeability, 4));
  text += line("coercivity", "HcB " + or_unknown(magnet.coercivity_A_per_m, "kA/m", 1e-3) + ", HcJ " +
                                 or_unknown(magnet.intrinsic_coercivity_A_per_m, "kA/m", 1e-3));
  text += line("temperature", "remanence " + or_unknown(magnet.remanence_coefficient_per_K, "%/K", 100) +
                                  ", HcJ " +
                                  or_unknown(magnet.intrinsic_coercivity_coefficient_per_K, "%/K", 100) +
                                  ", at most " + or_unknown(magnet.max_temperature_degC, "degC"));
  text += line("density", or_unknown(magnet.density_kg_per_m3, "kg/m3")) + recoil_line_text(magnet, 20);
  if (magnet.max_temperature_degC && magnet.remanence_coefficient_per_K)
    text += recoil_line_text(magnet, *magnet.max_temperature_degC);
  return text;
}

}  // namespace coilpull
