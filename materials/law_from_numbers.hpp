// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include <map>
#include <optional>
#include <string>
#include <vector>

#include "materials/magnetic_law.hpp"

namespace coilpull {

/// A soft-magnetic law as a person writes it, before any check and free of any file format: what the readers
/// of material files and of device files share. The keys in `numbers`, all required unless marked:
///
/// | law          | keys                                                                            |
/// |--------------|---------------------------------------------------------------------------------|
/// | "linear"     | mu_r                                                                            |
/// | "froehlich"  | saturation_polarization_T, half_field_A_per_m                                   |
/// | "brauer"     | k1 [A/(T m)], k2 [1/T^2], k3 [A/(T m)]; tail_from_T with saturation_polarization_T
/// optional | | "langevin"   | saturation_polarization_T, shape_field_A_per_m | | "arctangent" |
/// saturation_polarization_T, initial_susceptibility                               | | "" (points)  | the
/// lists h_A_per_m and b_T; saturation_polarization_T optional, for the tail; initial_permeability optional |
struct LawNumbers {
  std::string law;
  std::map<std::string, double> numbers;
  std::vector<double> h_A_per_m, b_T;  ///< same length, both start at 0 and rise
};

/// @throws BadMaterial  with `key` (and `element` for a bad point) set: an unknown law, a missing key, a key
/// that the
///   law does not have, a value out of range. A missing key or an unknown law has the key "law" or the
///   missing key.
SoftLaw make_law(const LawNumbers& numbers);

/// Every key of the table above, and "law", "h_A_per_m", "b_T".
std::vector<std::string> law_keys();

/// J at infinite field, where the law itself says it; empty for the linear law. [T]
std::optional<double> saturation_polarization(const SoftLaw& law);

/// The ranges shared by all who read a magnet: remanence above 0 and at most 3 T, recoil permeability 1
/// to 10.
/// @throws BadMaterial  with the key "remanence_T" or "recoil_permeability"
void check_magnet(double remanence_T, double recoil_permeability);

}  // namespace coilpull
