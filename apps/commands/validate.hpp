// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include <filesystem>
#include <string>
#include <vector>

#include "apps/commands/exit_code.hpp"

namespace coilpull {

struct ValidateOptions {
  std::filesystem::path folder = "validation_out";
  bool quick = false;                     ///< leave out the families that take longer than seconds
  std::vector<std::string> command = {};  ///< see RunOrigin
};

/// Recomputes the cases of data/published and writes what came out.
/// @throws CannotWrite, BadDevice (no published cases where the data are)
ExitCode run_validate(const ValidateOptions& options);

}  // namespace coilpull
