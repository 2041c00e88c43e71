// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include <filesystem>
#include <string>
#include <vector>

#include "apps/commands/exit_code.hpp"

namespace coilpull {

struct BenchOptions {
  std::filesystem::path device_file;
  std::filesystem::path folder = {};      ///< empty: <file stem>_out in the current folder
  int threads = 0;                        ///< 0: as many as the machine has cores
  std::vector<std::string> command = {};  ///< see RunOrigin
};

/// Prints what instruments on a bench should read, and writes bench_sheet.txt and bench_sheet.csv.
/// @throws BadDevice, CannotWrite
ExitCode run_bench(const BenchOptions& options);

}  // namespace coilpull
