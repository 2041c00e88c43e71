// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include <filesystem>
#include <string>
#include <vector>

#include "apps/commands/draw.hpp"
#include "apps/commands/exit_code.hpp"
#include "solver/sweep/row_limit.hpp"

namespace coilpull {

struct TableOptions {
  std::filesystem::path device_file;
  std::filesystem::path folder = {};  ///< empty: <file stem>_out in the current folder
  int threads = 0;                    ///< 0: as many as the machine has cores
  PictureChoice pictures = {};
  bool bodies = false;                           ///< columns of the force on every body too
  bool slopes = false;                           ///< columns of slopes too
  std::vector<std::string> approximations = {};  ///< columns of the force by these closed formulas too
  bool audit = true;                             ///< hold five rows against the energy of independent meshes
  double row_limit_s = usual_row_limit_s;        ///< of processor time for a row
  bool spread = false;                           ///< columns of the input spread too, and their picture
  bool vtu = false;                              ///< fields along the stroke too
  bool quiet = false;                            ///< no progress and no summary; trouble is still told
  std::vector<std::string> command = {};         ///< see RunOrigin
};

/// Solves every point of the device file, writes force_table.csv, its metadata, summary.txt and the device as
/// it was read (device.toml, with copies of its material files), prints the summary, draws.
/// @throws BadDevice (also when an approximation cannot describe the device), CannotWrite, NoVtu (before
/// anything is solved)
ExitCode run_table(const TableOptions& options);

}  // namespace coilpull
