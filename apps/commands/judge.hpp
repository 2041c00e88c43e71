// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include <filesystem>
#include <string>
#include <vector>

#include "apps/commands/exit_code.hpp"

namespace coilpull {

struct JudgeOptions {
  std::filesystem::path table_file;       ///< force_table.csv
  std::filesystem::path mine_file;        ///< displacement, current and force, from a spreadsheet or a bench
  std::filesystem::path folder = {};      ///< empty: <stem of mine_file>_out in the current folder
  std::vector<std::string> command = {};  ///< see RunOrigin
};

/// Lays the person's forces over the table: prints how far they are apart, writes judgement.csv and pictures.
/// @throws BadCsv, CannotWrite
ExitCode run_judge(const JudgeOptions& options);

}  // namespace coilpull
