// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include <filesystem>
#include <string>
#include <vector>

#include "apps/commands/exit_code.hpp"

namespace coilpull {

struct CompareOptions {
  std::vector<std::filesystem::path> device_files;  ///< one with changes, or several
  std::vector<std::string> changes = {};            ///< "sleeve=team 13 steel", of the one device
  std::filesystem::path folder = {};                ///< empty: <stem of the first file>_out
  int threads = 0;                                  ///< 0: as many as the machine has cores
  bool quiet = false;                               ///< no progress
  std::vector<std::string> command = {};            ///< see RunOrigin
};

/// Solves every candidate, prints the ranked summary, writes comparison.csv and one chart.
/// @throws BadDevice, CannotWrite
ExitCode run_compare(const CompareOptions& options);

}  // namespace coilpull
