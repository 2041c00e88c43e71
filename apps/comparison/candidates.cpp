// SPDX-License-Identifier: GPL-3.0-or-later
#include "apps/comparison/candidates.hpp"

#include <algorithm>
#include <cmath>

#include "materials/bad_material.hpp"
#include "materials/catalogue.hpp"
#include "materials/detail/nearest_name.hpp"
#include "materials/scaled_law.hpp"

namespace coilpull {
namespace {

[[noreturn]] void refuse_change(const std::string& change, const std::string& fact, const DeviceFile& file) {
  std::string parts;
  for (const Core& core : file.device.cores) parts += (parts.empty() ? "" : ", ") + core.name;
  for (const Magnet& magnet : file.device.magnets) parts += (parts.empty() ? "" : ", ") + magnet.name;
  throw BadDevice("--with " + change + ": " + fact + "\n  Write PART=MATERIAL, for example " +
                  (file.device.cores.empty() ? "sleeve" : file.device.cores.front().name) +
                  "=\"team 13 steel\". Parts: " + parts + ", or all for every core.");
}

struct Change {
  std::string part, material;
};

Change parsed(const std::string& words, const DeviceFile& file) {
  const std::size_t sign = words.find('=');
  if (sign == std::string::npos || sign == 0 || sign + 1 == words.size())
    refuse_change(words, "is no PART=MATERIAL.", file);
  return {words.substr(0, sign), words.substr(sign + 1)};
}

/// The steels a core may get: one, or both of a pair; none where air takes its place.
std::vector<SoftMaterial> steels_called(const std::string& material, const Catalogue& catalogue) {
  if (material == "none") return {};
  if (material.find(".toml") != std::string::npos) return {read_steel(material)};
  for (const std::string& pair : catalogue.pair_names())
    if (detail::lower_case(pair) == detail::lower_case(material)) {
      const Bracket both = catalogue.bracket(pair);
      return {*both.weak, *both.strong};
    }
  return {catalogue.steel(material)};
}

/// Every core of that name, or all; false: there is none.
bool change_cores(Candidate& candidate, const Change& change, const DeviceFile& file,
                  const Catalogue& catalogue) {
  const auto is_meant = [&](const Core& core) { return change.part == "all" || core.name == change.part; };
  if (std::none_of(file.device.cores.begin(), file.device.cores.end(), is_meant)) return false;
  std::vector<SoftLaw> laws;
  for (const SoftMaterial& steel : steels_called(change.material, catalogue)) {
    laws.push_back(steel.law);
    candidate.read.push_back(input_file(steel));
  }
  if (laws.empty()) laws = {LinearLaw(1)};
  candidate.devices.clear();
  for (const SoftLaw& law : laws) {
    candidate.devices.push_back(file.device);
    for (Core& core : candidate.devices.back().cores) {
      if (!is_meant(core)) continue;
      const double stacking = file.words_of.at(core.name).stacking_factor;
      core.law =
          stacking < 1 && change.material != "none" ? with_polarization(law, stacking).value_or(law) : law;
      core.material = change.material;
    }
  }
  return true;
}

bool change_magnet(Candidate& candidate, const Change& change, const Catalogue& catalogue) {
  for (Magnet& magnet : candidate.devices.front().magnets) {
    if (magnet.name != change.part) continue;
    const MagnetMaterial& grade = catalogue.magnet(change.material);
    candidate.read.push_back(input_file(grade));
    const RecoilLine line = recoil_line_at(grade, magnet.temperature_degC);
    const double factor = line.remanence_T / std::hypot(magnet.law.remanence_r_T, magnet.law.remanence_z_T);
    magnet.law = {factor * magnet.law.remanence_r_T, factor * magnet.law.remanence_z_T,
                  line.recoil_permeability};
    magnet.knee_T = line.knee_T;
    magnet.material = change.material;
    return true;
  }
  return false;
}

}  // namespace

std::vector<Candidate> candidates_of(const DeviceFile& file, const std::vector<std::string>& changes) {
  std::vector<Candidate> all = {{"as in the file", {file.device}}};
  if (changes.empty()) return all;
  const Catalogue catalogue = standard_catalogue();
  for (const std::string& words : changes) {
    const Change change = parsed(words, file);
    const bool one_part = file.device.cores.size() + file.device.magnets.size() == 1 ||
                          std::all_of(changes.begin(), changes.end(), [&](const std::string& other) {
                            return parsed(other, file).part == change.part;
                          });
    Candidate candidate{one_part ? change.material : change.part + " " + change.material, {file.device}};
    if (change.material == "none") candidate.name = one_part ? "no core" : "no " + change.part;
    try {
      if (!change_cores(candidate, change, file, catalogue) && !change_magnet(candidate, change, catalogue))
        refuse_change(words, "there is no such core or magnet.", file);
    } catch (const BadMaterial& trouble) {
      refuse_change(words, std::string(trouble.what()), file);
    }
    all.push_back(std::move(candidate));
  }
  return all;
}

}  // namespace coilpull
