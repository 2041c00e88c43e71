// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include <filesystem>
#include <map>
#include <string>
#include <vector>

#include "materials/magnet_material.hpp"
#include "materials/soft_material.hpp"

namespace coilpull {

/// The two laws between which a material lies that is known as a pair only.
struct Bracket {
  const SoftMaterial* weak;
  const SoftMaterial* strong;
};

/// All steels and magnets of some data folders, by name. Capitals do not matter in names.
class Catalogue {
public:
  /// Reads steels/*.toml and magnets/*.toml of each folder; either may be absent.
  /// @throws BadMaterial  when a file is bad, a name occurs twice, a pair lacks a bound, or a folder does not
  /// exist
  explicit Catalogue(const std::vector<std::filesystem::path>& data_folders);

  /// @throws BadMaterial  when there is none of that name, with the nearest name if one is near, or when it
  /// is the
  ///   name of a pair
  const SoftMaterial& steel(const std::string& name) const;
  const MagnetMaterial& magnet(const std::string& name) const;

  /// @throws BadMaterial  when there is no pair of that name
  Bracket bracket(const std::string& pair) const;
  std::vector<std::string> pair_names() const;  ///< sorted

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
