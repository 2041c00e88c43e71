// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include <filesystem>
#include <string>
#include <vector>

#include "apps/commands/exit_code.hpp"

namespace coilpull {

struct ReportOptions {
  std::filesystem::path source;       ///< device file, or what coilpull table left in a folder
  std::filesystem::path folder = {};  ///< empty: <file stem>_out, or the folder of the results
  int threads = 0;                    ///< 0: as many as the machine has cores
  std::string circuit = {};           ///< of the advice; empty: the first that varies
  std::filesystem::path variants =
      {};              ///< folder with a variants.csv; empty: that of the results, if it has one
  bool advice = true;  ///< heat, sensors, switching, holding, ratings: solves what they need beside the table
  bool spread = true;  ///< of a device file: solve the ends of the input's ranges too
  bool quiet = false;
  std::vector<std::string> command = {};  ///< see RunOrigin
};

/// Writes report.html, one page that needs nothing else. A device file is solved first.
/// @throws BadDevice, BadCsv, CannotWrite
ExitCode run_report(const ReportOptions& options);

}  // namespace coilpull
