// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include <filesystem>
#include <optional>
#include <string>

#include "apps/device_file/table.hpp"
#include "materials/bad_material.hpp"
#include "materials/catalogue.hpp"

namespace coilpull {

/// What a core is made of.
struct NamedLaw {
  SoftLaw law;
  std::string name;                       ///< for reports
  std::string as_toml;                    ///< the value of its key in canonical form
  std::optional<SoftMaterial> file = {};  ///< when it comes from one
};

/// What a magnet is made of; its direction is read elsewhere.
struct NamedGrade {
  RecoilLine line;                          ///< at the temperature that was asked for
  std::string name;                         ///< for reports
  std::string as_toml;                      ///< the value of its key in canonical form
  std::optional<MagnetMaterial> file = {};  ///< when it comes from one
};

/// Where the materials of one device file come from. The catalogue is read when the first name is looked up.
struct MaterialSources {
  std::filesystem::path folder;  ///< of the device file: relative paths to material files start here
  std::optional<Catalogue> catalogue = {};
};

/// material = "name from the catalogue" | "path/to/file.toml" | { law = "froehlich", ... } |
/// { h_A_per_m = [...], b_T = [...] }
/// @throws BadDevice  also for what is wrong inside the material's own file
NamedLaw read_soft_material(const Value& material, const SourceText& text, MaterialSources& sources);

/// material = "name from the catalogue" | "path/to/file.toml" | { remanence_T = 1.2, recoil_permeability
/// = 1.05 }; remanence also in _mT or _G, and knee_T (or _mT, _G) where the knee is known
/// @param temperature  20 degC when empty. Numbers that are given are those of their temperature.
/// @throws BadDevice
NamedGrade read_magnet_material(const Value& material, const SourceText& text, MaterialSources& sources,
                                const std::optional<Value>& temperature);

/// The material folder's complaint as one about this value. @throws BadDevice, always
[[noreturn]] void refuse(const Value& value, const BadMaterial& trouble);

}  // namespace coilpull
