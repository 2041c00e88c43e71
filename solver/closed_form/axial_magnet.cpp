// SPDX-License-Identifier: GPL-3.0-or-later
#include "solver/closed_form/axial_magnet.hpp"

#include <cmath>

#include "materials/constants.hpp"
#include "solver/closed_form/thick_coil.hpp"

namespace coilpull {

namespace {

/// The sheets as if the recoil permeability were 1.
std::vector<LoadedSheet> full_sheets(const AxialMagnet& magnet) {
  const Box& s = magnet.section;
  const double around = magnet.remanence_T / mu0 * (s.z_to - s.z_from);
  std::vector<LoadedSheet> sheets = {{{s.r_to, s.z_from, s.z_to}, around}};
  if (s.r_from > 0) sheets.push_back({{s.r_from, s.z_from, s.z_to}, -around});
  return sheets;
}

}  // namespace

double recoil_factor(const AxialMagnet& magnet) {
  const double chi = magnet.recoil_permeability - 1;
  if (chi == 0 || magnet.remanence_T == 0) return 1;
  double linked = 0;  // int B . M dV
  const std::vector<LoadedSheet> sheets = full_sheets(magnet);
  for (const LoadedSheet& a : sheets)
    for (const LoadedSheet& b : sheets)
      linked += a.ampere_turns * b.ampere_turns * mutual_inductance(a.sheet, b.sheet);
  const Box& s = magnet.section;
  const double volume = pi * (s.r_to - s.r_from) * (s.r_to + s.r_from) * (s.z_to - s.z_from);
  const double mean_b = linked * mu0 / (magnet.remanence_T * volume);
  return 1 / (1 + chi * (1 - mean_b / magnet.remanence_T));
}

std::vector<LoadedSheet> sheets_of(const AxialMagnet& magnet) {
  std::vector<LoadedSheet> sheets = full_sheets(magnet);
  const double factor = recoil_factor(magnet);
  for (LoadedSheet& loaded : sheets) loaded.ampere_turns *= factor;
  return sheets;
}

double dipole_moment(const AxialMagnet& magnet) {
  double moment = 0;
  for (const auto& [sheet, ampere_turns] : sheets_of(magnet))
    moment += pi * sheet.radius * sheet.radius * ampere_turns;
  return moment;
}

SourceField flux_density(const AxialMagnet& magnet, Point at) {
  SourceField sum{0, 0};
  for (const auto& [sheet, ampere_turns] : sheets_of(magnet)) sum += flux_density(sheet, ampere_turns, at);
  return sum;
}

double axis_flux_density(const AxialMagnet& magnet, double z) {
  double sum = 0;
  for (const auto& [sheet, ampere_turns] : sheets_of(magnet))
    sum += axis_flux_density(sheet, ampere_turns, z);
  return sum;
}

double force_on(const AxialMagnet& magnet, const AxialMagnet& other) {
  double force = 0;
  for (const auto& [sheet, ampere_turns] : sheets_of(magnet))
    for (const auto& [fixed, fixed_turns] : sheets_of(other))
      force += ampere_turns * fixed_turns * inductance_slope(sheet, fixed);
  return force;
}

double force_on(const AxialMagnet& magnet, const Box& coil, double ampere_turns) {
  double force = 0;  // the slope for the coil's own motion has the other sign
  for (const auto& [sheet, around] : sheets_of(magnet))
    force -= around * ampere_turns * inductance_slope(coil, sheet);
  return force;
}

double force_on(const AxialMagnet& magnet, const CurrentSheet& coil, double ampere_turns) {
  double force = 0;
  for (const auto& [sheet, around] : sheets_of(magnet))
    force += around * ampere_turns * inductance_slope(sheet, coil);
  return force;
}

double flux_linkage(const Box& coil, const AxialMagnet& magnet) {
  double linkage = 0;
  for (const auto& [sheet, around] : sheets_of(magnet)) linkage += around * mutual_inductance(coil, sheet);
  return linkage;
}

double dipole_attraction(double moment1, double moment2, double distance) {
  const double square = distance * distance;
  return 1.5 * mu0 * moment1 * moment2 / (pi * square * square);
}

}  // namespace coilpull
