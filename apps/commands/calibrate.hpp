// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include <filesystem>
#include <string>
#include <vector>

#include "apps/commands/exit_code.hpp"

namespace coilpull {

struct CalibrateOptions {
  std::filesystem::path device_file;
  std::filesystem::path measured_file;  ///< displacement, current, and force, B_z or inductance
  std::vector<std::string> fit = {};    ///< "remanence", "offset", "saturation=sleeve"; see read_parameters()
  std::filesystem::path folder = {};    ///< empty: <file stem>_out in the current folder
  int threads = 0;                      ///< 0: as many as the machine has cores
  std::vector<std::string> command = {};  ///< see RunOrigin
};

/// Fits numbers of the device to what was measured, prints them with their uncertainties, writes
/// calibration.csv and calibration_points.csv. exit_row_not_ok when the data cannot tell one of them, or the
/// fit did not settle.
/// @throws BadDevice, BadCsv, CannotWrite, NoLeastSquares (before anything is solved)
ExitCode run_calibrate(const CalibrateOptions& options);

}  // namespace coilpull
