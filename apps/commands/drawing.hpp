// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include <filesystem>
#include <string>
#include <vector>

#include "apps/commands/exit_code.hpp"

namespace coilpull {

struct DrawingOptions {
  std::filesystem::path device_file;
  std::filesystem::path folder = {};      ///< empty: <file stem>_out
  double spare_percent = 5;               ///< added to the length of wire
  std::vector<std::string> command = {};  ///< see RunOrigin
};

/// drawing.pdf, drawing.svg and drawing.png: the device in natural size, with its list of parts. Nothing is
/// solved.
/// @throws BadDevice, CannotWrite
ExitCode run_drawing(const DrawingOptions& options);

}  // namespace coilpull
