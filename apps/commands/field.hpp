// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include <filesystem>
#include <optional>
#include <string>
#include <vector>

#include "apps/commands/exit_code.hpp"
#include "solver/device/device.hpp"

namespace coilpull {

struct FieldOptions {
  std::filesystem::path device_file;
  std::optional<double> displacement_mm = {};  ///< default: the first of the file
  std::vector<std::string> currents = {};      ///< "drive=4", in ampere; default: 0, or the file's only point
};

/// Solves one point and prints it.
/// @throws BadDevice  also for a current that does not fit the device
ExitCode run_field(const FieldOptions& options);

/// The device with just the point that the options name.
/// @throws BadDevice  when a current is no "circuit=number" of this device
Device at_one_point(Device device, const FieldOptions& options);

}  // namespace coilpull
