// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include <filesystem>
#include <optional>

#include "materials/material_words.hpp"

namespace coilpull {

/// A magnet of the catalogue: its line, its limits and where they come from.
struct MagnetMaterial : MaterialWords {
  double remanence_T = 0, recoil_permeability = 1;                    ///< at 20 degC
  std::optional<double> remanence_low_T = {}, remanence_high_T = {};  ///< spread of the grade
  std::optional<double> coercivity_A_per_m = {};                      ///< HcB, > 0
  std::optional<double> intrinsic_coercivity_A_per_m = {};            ///< HcJ, > 0
  std::optional<double> squareness = {};                   ///< Hk / HcJ, where the knee begins; 0 .. 1
  std::optional<double> remanence_coefficient_per_K = {};  ///< (1/Br) dBr/dT, usually < 0
  std::optional<double> intrinsic_coercivity_coefficient_per_K = {};  ///< (1/HcJ) dHcJ/dT from 20 degC
  std::optional<double> max_temperature_degC = {}, density_kg_per_m3 = {};
};

/// One material file (TOML), as read_steel.
/// @throws BadMaterial  with file, line, key, value and what is allowed
MagnetMaterial read_magnet(const std::filesystem::path& file);

/// The straight recoil line of a magnet at one temperature, and where it ends.
struct RecoilLine {
  double remanence_T;
  double recoil_permeability;
  /// Flux density along the magnetisation at the knee, B = Br - mu0 mu_r Hk; below it the magnet is changed
  /// for good. Empty: the file knows no coercivity. [T]
  std::optional<double> knee_T;
};

/// Br(T) = Br (1 + alpha (T - 20)), HcJ(T) = HcJ (1 + beta (T - 20)), Hk(T) = squareness HcJ(T), with the
/// reversible coefficients alpha and beta of IEC 60404-8-1 (their names from memory). A coefficient that the
/// file does not state counts as 0 at 20 degC.
/// @throws BadMaterial  at another temperature, when a coefficient that is needed is not stated, above the
/// stated
///   highest temperature, or where nothing of the remanence or of the coercivity would be left
RecoilLine recoil_line_at(const MagnetMaterial& magnet, double temperature_degC);

}  // namespace coilpull
