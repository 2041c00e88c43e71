// SPDX-License-Identifier: GPL-3.0-or-later
#include "apps/spread/input_ranges.hpp"

#include <algorithm>
#include <cmath>

#include "apps/output/number_text.hpp"
#include "materials/catalogue.hpp"
#include "materials/scaled_law.hpp"
#include "solver/device/section_at.hpp"

namespace coilpull {
namespace {

constexpr double default_remanence = 0.03;  // half range of a magnet whose grade states none; no source

MagnetLaw scaled(const MagnetLaw& law, double factor) {
  return {factor * law.remanence_r_T, factor * law.remanence_z_T, law.recoil_permeability};
}

double remanence(const MagnetLaw& law) { return std::hypot(law.remanence_r_T, law.remanence_z_T); }

struct Factors {
  double low, high;
};

Factors remanence_factors(const DeviceFile& file, const Magnet& magnet) {
  if (file.spread.remanence) return {1 - *file.spread.remanence, 1 + *file.spread.remanence};
  const std::optional<MagnetMaterial>& grade = file.words_of.at(magnet.name).grade;
  if (grade && grade->remanence_low_T && grade->remanence_high_T)
    return {*grade->remanence_low_T / grade->remanence_T, *grade->remanence_high_T / grade->remanence_T};
  return {1 - default_remanence, 1 + default_remanence};
}

void add_remanences(const DeviceFile& file, std::vector<InputRange>& ranges) {
  for (std::size_t k = 0; k < file.device.magnets.size(); ++k) {
    const Magnet& magnet = file.device.magnets[k];
    const Factors factors = remanence_factors(file, magnet);
    if (factors.low == factors.high) continue;
    InputRange range{"remanence of " + magnet.name + ", " + rounded(factors.low * remanence(magnet.law), 4) +
                         " to " + rounded(factors.high * remanence(magnet.law), 4) + " T",
                     {file.device, file.device}};
    range.ends[0].magnets[k].law = scaled(magnet.law, factors.low);
    range.ends[1].magnets[k].law = scaled(magnet.law, factors.high);
    ranges.push_back(std::move(range));
  }
}

/// Magnets whose file knows how they change with temperature.
void add_temperature(const DeviceFile& file, std::vector<InputRange>& ranges) {
  const double half = file.spread.temperature_K;
  InputRange range{"temperature of the magnets, -+ " + rounded(half, 3) + " K", {file.device, file.device}};
  bool some = false;
  for (std::size_t k = 0; k < file.device.magnets.size(); ++k) {
    const Magnet& magnet = file.device.magnets[k];
    const std::optional<MagnetMaterial>& grade = file.words_of.at(magnet.name).grade;
    if (!grade || !grade->remanence_coefficient_per_K || half == 0) continue;
    some = true;
    const double here = 1 + *grade->remanence_coefficient_per_K * (magnet.temperature_degC - 20);
    for (const std::size_t end : {0u, 1u}) {
      const double there = here + *grade->remanence_coefficient_per_K * (end == 0 ? -half : half);
      range.ends[end].magnets[k].law = scaled(magnet.law, std::max(there, 0.0) / here);
    }
  }
  if (some) ranges.push_back(std::move(range));
}

/// Both laws of the pair that the core's material is a bound of, in the core's stack.
std::vector<SoftLaw> laws_of_pair(const PartWords& words) {
  if (!words.steel || !words.steel->member) return {};
  const Catalogue catalogue = standard_catalogue();
  const Bracket both = catalogue.bracket(words.steel->member->pair);
  std::vector<SoftLaw> laws = {both.weak->law, both.strong->law};
  if (words.stacking_factor < 1)
    for (SoftLaw& law : laws) law = with_polarization(law, words.stacking_factor).value_or(law);
  return laws;
}

void add_steels(const DeviceFile& file, std::vector<InputRange>& ranges) {
  for (std::size_t k = 0; k < file.device.cores.size(); ++k) {
    const Core& core = file.device.cores[k];
    const double half = file.spread.polarization;
    std::vector<SoftLaw> laws = laws_of_pair(file.words_of.at(core.name));
    std::string words = "the two bounds of its steel";
    if (laws.empty()) {
      const auto weak = with_polarization(core.law, 1 - half), strong = with_polarization(core.law, 1 + half);
      if (half == 0 || !weak || !strong) continue;
      laws = {*weak, *strong};
      words = "polarization of its steel -+ " + rounded(100 * half, 3) + " %";
    }
    InputRange range{"core " + core.name + ", " + words, {file.device, file.device}};
    for (const std::size_t end : {0u, 1u}) range.ends[end].cores[k].law = laws[end];
    ranges.push_back(std::move(range));
  }
}

/// Every displacement to both sides, but never by more than half of the clearance that is left there.
void add_position(const DeviceFile& file, std::vector<InputRange>& ranges) {
  const double half = file.spread.position_m;
  if (half == 0 || file.device.moving.empty()) return;
  InputRange range{"position, -+ " + rounded(in_mm(half), 4) + " mm", {file.device, file.device}};
  for (std::size_t i = 0; i < file.device.displacements.size(); ++i) {
    const double clearance = clearance_at(file.device, file.device.displacements[i]);
    const double shift = std::isfinite(clearance) ? std::min(half, 0.5 * clearance) : half;
    range.ends[0].displacements[i] -= shift;
    range.ends[1].displacements[i] += shift;
  }
  ranges.push_back(std::move(range));
}

}  // namespace

std::vector<InputRange> input_ranges(const DeviceFile& file) {
  std::vector<InputRange> ranges;
  add_remanences(file, ranges);
  add_temperature(file, ranges);
  add_steels(file, ranges);
  add_position(file, ranges);
  return ranges;
}

}  // namespace coilpull
