// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include <vector>

#include "materials/magnetic_law.hpp"

namespace coilpull {

// One loop of flux through gaps, iron and magnets in series: Ampere's law with the same flux through every
// piece, evenly spread over its area. Hopkinson, Phil. Trans. R. Soc. 177 (1886) 331 (from memory);
// Fitzgerald, Kingsley and Umans, Electric Machinery, 6th ed., sec. 1.1 to 1.6 and 3.3 to 3.5. What it leaves
// out: fringing at the gaps and leakage beside them. Fair for gaps short against the width of their faces, a
// tenth or less; at a gap of half the width it may be wrong by a factor 2.

/// A gap between two flat pole faces.
struct AirGap {
  double length;  ///< along the flux [m]
  double area;    ///< [m^2]
};

/// A piece of steel along which the flux density is taken as even.
struct IronPath {
  double length, area;  ///< [m], [m^2]
  SoftLaw law;
};

/// Straight recoil line B = Br + mu0 mu_r H, magnetised along the loop's positive direction when Br > 0.
struct MagnetPath {
  double length, area;  ///< [m], [m^2]
  double remanence_T;
  double recoil_permeability = 1;
};

/// Gaps and steel that one flux passes in turn.
struct SeriesCircuit {
  double ampere_turns = 0;  ///< around the loop, in its positive direction
  std::vector<AirGap> gaps = {};
  std::vector<IronPath> iron = {};
  std::vector<MagnetPath> magnets = {};
};

double reluctance(const AirGap& gap);         ///< length / (mu0 area) [A/Wb]
double reluctance(const MagnetPath& magnet);  ///< length / (mu0 mu_r area) [A/Wb]

/// Ampere-turns that drive this flux: sum of flux * reluctance and of H(flux / area) * length in the iron.
double ampere_turns_for(const SeriesCircuit& circuit, double flux_Wb);

/// Flux [Wb] with  ampere_turns = ampere_turns_for(flux), which rises with the flux: one root, found to
/// rounding.
/// @throws std::invalid_argument  nothing in the loop, or a piece without length or area
double flux(const SeriesCircuit& circuit);

/// Pull [N] across a gap, always attraction: B^2 A / (2 mu0) with B = flux / A, from Maxwell's stress; exact
/// where the field crosses both faces evenly and at right angles. At 1 T it is 398 kPa.
double gap_pull(const AirGap& gap, double flux_Wb);
double gap_pull_by_flux_density(double b_T, double area_m2);

/// A round plunger drawn into a bore: flat end against the stop across the end gap, flux returning sideways
/// through a thin cylindrical gap. Lengths [m].
struct Plunger {
  double radius;
  double end_gap;
  double side_gap, side_length;  ///< radial clearance, and the axial length over which flux crosses it
};

/// The loop of a plunger: gaps.front() is the end gap, whose pull is the plunger's; the side gap pulls
/// sideways, all around, and cancels. F = (NI)^2 / (2 mu0 pi a^2 R^2), R the sum of both, when the iron takes
/// nothing.
SeriesCircuit plunger_circuit(const Plunger& plunger, double ampere_turns, std::vector<IronPath> iron = {});

}  // namespace coilpull
