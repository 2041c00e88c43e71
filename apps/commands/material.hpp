// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include <filesystem>
#include <optional>
#include <string>
#include <vector>

#include "apps/commands/exit_code.hpp"
#include "apps/material/import_points.hpp"

namespace coilpull {

/// Prints the catalogue, a line a material.
ExitCode run_material_list();

struct MaterialShowOptions {
  std::string name;  ///< of a steel, a pair of bounds or a magnet, or a path to a material file
  std::filesystem::path folder = {};      ///< empty: <name>_out in the current folder
  bool files = true;                      ///< draw the charts
  std::string fit = {};                   ///< a closed law to be laid through the points of its table
  std::vector<std::string> command = {};  ///< see RunOrigin
};

/// Prints what is known of a material and draws it.
/// @throws BadMaterial, CannotWrite
ExitCode run_material_show(const MaterialShowOptions& options);

struct MaterialImportOptions {
  std::filesystem::path points_file;
  std::filesystem::path material_file = {};  ///< empty: <stem of points_file>.toml in the current folder
  ImportChoice choice;                       ///< an empty name: the stem of points_file
  std::vector<std::string> command = {};     ///< see RunOrigin
};

/// Turns points into a material file.
/// @throws BadCsv, BadMaterial, CannotWrite
ExitCode run_material_import(MaterialImportOptions options);

struct BoltOptions {
  double diameter_mm = 0, pitch_mm = 0;
  std::optional<double> across_flats_mm = {};
};

/// Prints the cylinders that carry the flux of a bolt. @throws BadMaterial
ExitCode run_material_bolt(const BoltOptions& options);

}  // namespace coilpull
