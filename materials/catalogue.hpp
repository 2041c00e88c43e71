// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include <filesystem>
#include <map>
#include <optional>
#include <string>
#include <vector>

#include "materials/magnetic_law.hpp"

namespace coilpull {

struct SoftMaterial {
  std::string name;  ///< lower-case trade words
  std::vector<std::string> also_called;
  std::string source, certainty;  ///< who says so, and how sure it is
  std::string condition, beyond;  ///< for what it holds, and where it must not be used
  SoftLaw law;
  std::optional<double> saturation_polarization_T;  ///< stated in the file, or by an analytic law
  std::optional<double> density_kg_per_m3, resistivity_ohm_m;
};

struct MagnetMaterial {
  std::string name;  ///< lower-case trade words
  std::vector<std::string> also_called;
  std::string source, certainty, condition, beyond;
  double remanence_T, recoil_permeability;                  ///< at 20 degC
  std::optional<double> remanence_low_T, remanence_high_T;  ///< spread of the grade
  std::optional<double> coercivity_A_per_m;                 ///< HcB, > 0
  std::optional<double> intrinsic_coercivity_A_per_m;       ///< HcJ, > 0
  std::optional<double> remanence_coefficient_per_K;        ///< (1/Br) dBr/dT, usually < 0
  std::optional<double> max_temperature_degC, density_kg_per_m3;
};

/// One material file (TOML). Law keys as in materials/law_from_numbers.hpp, at the top level of the file.
/// Only the source is required of a person's own file: the name is then the file's, the other words are "not
/// stated".
/// @throws BadMaterial  with file, line, key, value and what is allowed
SoftMaterial read_steel(const std::filesystem::path& file);
MagnetMaterial read_magnet(const std::filesystem::path& file);

/// All steels and magnets of some data folders, by name. Capitals do not matter in names.
class Catalogue {
public:
  /// Reads steels/*.toml and magnets/*.toml of each folder; either may be absent.
  /// @throws BadMaterial  when a file is bad, a name occurs twice, or a folder does not exist
  explicit Catalogue(const std::vector<std::filesystem::path>& data_folders);

  /// @throws BadMaterial  when there is none of that name, with the nearest name if one is near
  const SoftMaterial& steel(const std::string& name) const;
  const MagnetMaterial& magnet(const std::string& name) const;

  std::vector<std::string> steel_names() const;   ///< sorted, without the other names
  std::vector<std::string> magnet_names() const;  ///< sorted, without the other names

private:
  std::vector<SoftMaterial> steels_;
  std::vector<MagnetMaterial> magnets_;
  std::map<std::string, std::size_t> steel_of_, magnet_of_;  ///< lower-case name or other name -> index
};

/// The catalogue that comes with the program: data_directory().
Catalogue standard_catalogue();

}  // namespace coilpull
