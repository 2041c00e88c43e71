// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include <filesystem>
#include <optional>
#include <string>
#include <vector>

#include "apps/commands/exit_code.hpp"

namespace coilpull {

struct WiresOptions {
  std::filesystem::path device_file;
  std::filesystem::path table_file = {};  ///< empty: <file stem>_out/force_table.csv
  std::filesystem::path folder = {};      ///< of wires.csv; empty: <file stem>_out
  std::string coil = {};                  ///< empty: the only one
  double supply_V = 0;
  double source_ohm = 0;
  double pulse_ms = 10;
  std::string metal = {};  ///< empty: that of the coil's wire
  std::string insulation = "grade 2";
  bool by_gauge = false;
  std::vector<std::string> command = {};  ///< see RunOrigin
};

/// One row a wire size for a stated supply, read out of a solved table: nothing is solved again.
/// @throws BadDevice, BadCsv, BadMaterial, CannotWrite
ExitCode run_wires(const WiresOptions& options);

}  // namespace coilpull
