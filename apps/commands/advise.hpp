// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include <filesystem>
#include <string>
#include <vector>

#include "apps/advice/advice_runs.hpp"
#include "apps/commands/exit_code.hpp"
#include "apps/commands/progress.hpp"

namespace coilpull {

struct AdviseOptions {
  std::filesystem::path device_file;
  std::filesystem::path folder = {};      ///< empty: <file stem>_out in the current folder
  std::string circuit = {};               ///< empty: the first that varies
  int threads = 0;                        ///< 0: as many as the machine has cores
  std::vector<std::string> command = {};  ///< see RunOrigin
};

/// Changes of this device as the program solves them. @param file  outlives what is returned
SolveChange solve_beside(const DeviceFile& file, int threads, ProgressStyle style);

/// Solves the table and tells what follows from it: heat, sensors, when to switch, what moves and holds, what
/// parts have to bear. A CSV file and a picture for each.
/// @throws BadDevice, BadCsv, CannotWrite
ExitCode run_advise(const AdviseOptions& options);

}  // namespace coilpull
