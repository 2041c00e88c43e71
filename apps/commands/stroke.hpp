// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include <filesystem>
#include <string>
#include <vector>

#include "apps/commands/exit_code.hpp"
#include "apps/motion/stroke_plan.hpp"

namespace coilpull {

struct StrokeVerbOptions {
  std::filesystem::path device_file;
  std::filesystem::path folder = {};  ///< empty: <file stem>_out in the current folder
  std::string circuit = {};           ///< empty: the first that varies
  StrokeChoice choice = {};
  bool spread = false;                    ///< the band also by the ranges of the input
  bool row_check = true;                  ///< of several stages: solve two of them together
  bool best = false;                      ///< look for the best leads and pitch
  int threads = 0;                        ///< 0: as many as the machine has cores
  std::vector<std::string> command = {};  ///< see RunOrigin
};

/// Solves the table and runs a stroke from it: stroke.csv with its metadata, stroke_stages.csv, picture
/// stroke, words on the screen.
/// @throws BadDevice, BadCsv, CannotWrite
ExitCode run_stroke(const StrokeVerbOptions& options);

}  // namespace coilpull
