// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include <filesystem>
#include <string>
#include <vector>

#include "apps/commands/exit_code.hpp"

namespace coilpull {

struct RemanenceOptions {
  std::filesystem::path device_file;
  std::filesystem::path folder = {};      ///< empty: <file stem>_out
  int threads = 0;                        ///< 0: as many as the machine has cores
  std::vector<std::string> command = {};  ///< see RunOrigin
};

/// Brackets what the remanence of the cores does with the current off: two more solves beside the plain one.
/// @throws BadDevice  also when no core states a coercive field; CannotWrite
ExitCode run_remanence(const RemanenceOptions& options);

}  // namespace coilpull
