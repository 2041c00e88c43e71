// SPDX-License-Identifier: GPL-3.0-or-later
#include "solver/closed_form/series_circuit.hpp"

#include <boost/math/tools/toms748_solve.hpp>
#include <cmath>
#include <cstdint>
#include <stdexcept>

#include "materials/constants.hpp"

namespace coilpull {

namespace {

void require_sizes(const SeriesCircuit& circuit) {
  const auto check = [](double length, double area, double least_length) {
    if (!(length >= least_length) || !(area > 0) || !std::isfinite(length) || !std::isfinite(area))
      throw std::invalid_argument("a piece of the magnetic circuit has length " + std::to_string(length) +
                                  " m and area " + std::to_string(area) +
                                  " m^2: lengths at least 0 and areas above 0 are allowed");
  };
  for (const AirGap& gap : circuit.gaps) check(gap.length, gap.area, 0);
  for (const IronPath& path : circuit.iron) check(path.length, path.area, 0);
  for (const MagnetPath& magnet : circuit.magnets) check(magnet.length, magnet.area, 0);
}

/// Of all that is not iron.
double straight_reluctance(const SeriesCircuit& circuit) {
  double sum = 0;
  for (const AirGap& gap : circuit.gaps) sum += reluctance(gap);
  for (const MagnetPath& magnet : circuit.magnets) sum += reluctance(magnet);
  return sum;
}

/// Coil and magnets together.
double drive(const SeriesCircuit& circuit) {
  double sum = circuit.ampere_turns;
  for (const MagnetPath& magnet : circuit.magnets)
    sum += magnet.remanence_T * magnet.length / (mu0 * magnet.recoil_permeability);
  return sum;
}

/// What gaps, magnets and iron take of the drive at a flux >= 0.
double drop(const SeriesCircuit& circuit, double flux_Wb) {
  double sum = straight_reluctance(circuit) * flux_Wb;
  for (const IronPath& path : circuit.iron) sum += evaluate(path.law, flux_Wb / path.area).h * path.length;
  return sum;
}

}  // namespace

double reluctance(const AirGap& gap) { return gap.length / (mu0 * gap.area); }

double reluctance(const MagnetPath& magnet) {
  return magnet.length / (mu0 * magnet.recoil_permeability * magnet.area);
}

double ampere_turns_for(const SeriesCircuit& circuit, double flux_Wb) {
  require_sizes(circuit);
  return std::copysign(drop(circuit, std::abs(flux_Wb)), flux_Wb) - (drive(circuit) - circuit.ampere_turns);
}

double flux(const SeriesCircuit& circuit) {
  require_sizes(circuit);
  const double straight = straight_reluctance(circuit), driven = drive(circuit), wanted = std::abs(driven);
  double as_air = straight;
  for (const IronPath& path : circuit.iron) as_air += path.length / (mu0 * path.area);
  if (!(as_air > 0)) throw std::invalid_argument("the magnetic circuit has no length: give it a gap or iron");
  if (driven == 0) return 0;
  if (circuit.iron.empty()) return driven / straight;

  // Iron takes nothing at least, and at most what air would: the root lies between (a little beyond for
  // a table whose slope is allowed below mu0).
  double low = 0.9 * wanted / as_air, high = 2 * low;
  while (drop(circuit, high) < wanted) high *= 2;
  while (drop(circuit, low) > wanted) low *= 0.5;
  std::uintmax_t steps = 200;
  const auto [below, above] =
      boost::math::tools::toms748_solve([&](double f) { return drop(circuit, f) - wanted; }, low, high,
                                        boost::math::tools::eps_tolerance<double>(50), steps);
  return std::copysign(0.5 * (below + above), driven);
}

double gap_pull(const AirGap& gap, double flux_Wb) {
  return gap_pull_by_flux_density(flux_Wb / gap.area, gap.area);
}

double gap_pull_by_flux_density(double b_T, double area_m2) { return b_T * b_T * area_m2 / (2 * mu0); }

SeriesCircuit plunger_circuit(const Plunger& plunger, double ampere_turns, std::vector<IronPath> iron) {
  SeriesCircuit circuit;
  circuit.ampere_turns = ampere_turns;
  circuit.gaps = {{plunger.end_gap, pi * plunger.radius * plunger.radius},
                  {plunger.side_gap, 2 * pi * plunger.radius * plunger.side_length}};
  circuit.iron = std::move(iron);
  return circuit;
}

}  // namespace coilpull
