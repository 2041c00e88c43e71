// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include <filesystem>
#include <string>
#include <vector>

#include "apps/commands/exit_code.hpp"

namespace coilpull {

struct ExportOptions {
  std::filesystem::path source;           ///< device file, its results folder, or a force_table.csv
  std::vector<std::string> formats;       ///< of names_of_formats()
  std::filesystem::path folder = {};      ///< empty: where the table lies
  std::string circuit = {};               ///< empty: the only one
  int parts = 2;                          ///< points in each interval of the table
  bool fixed_point = false;               ///< C header in integers
  std::vector<std::string> command = {};  ///< see RunOrigin
};

std::vector<std::string> names_of_formats();

/// A solved table for other programs, through one coenergy function W'(z, i): nothing is solved again.
/// @throws BadCsv, NoArrays, CannotWrite
ExitCode run_export(const ExportOptions& options);

}  // namespace coilpull
