// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include <filesystem>
#include <optional>
#include <string>

#include "materials/magnetic_law.hpp"
#include "materials/material_words.hpp"

namespace coilpull {

/// One of two laws between which a material lies that nobody has measured well enough.
enum class Bound { weak, strong };

/// "weak" or "strong".
const char* word_for(Bound bound);

/// Which end of a pair of bounds a steel is.
struct PairMember {
  std::string pair;  ///< name that both share: "hardened bolt steel"
  Bound bound;
};

/// A steel of the catalogue: its curve, its limits and where they come from.
struct SoftMaterial : MaterialWords {
  SoftLaw law;
  std::optional<double> saturation_polarization_T = {};  ///< stated in the file, or by an analytic law
  std::optional<double> range_from_A_per_m = {}, range_to_A_per_m = {};  ///< H for which the source speaks
  std::optional<double> coercive_field_A_per_m = {};                     ///< Hc after saturation, > 0
  std::optional<double> density_kg_per_m3 = {}, resistivity_ohm_m = {};
  std::string bulk_source = {};  ///< of density and resistivity
  std::optional<PairMember> member = {};
};

/// One material file (TOML). Law keys as in materials/law_from_numbers.hpp, at the top level of the file.
/// Only the source is required of a person's own file: the name is then the file's, the other words are "not
/// stated".
/// @throws BadMaterial  with file, line, key, value and what is allowed
SoftMaterial read_steel(const std::filesystem::path& file);

}  // namespace coilpull
