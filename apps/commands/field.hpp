// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include <filesystem>
#include <optional>
#include <string>
#include <vector>

#include "apps/commands/exit_code.hpp"
#include "apps/output/section_view.hpp"
#include "solver/device/device.hpp"

namespace coilpull {

struct PointOptions {
  std::filesystem::path device_file;
  std::optional<double> displacement_mm = {};  ///< default: the first of the file
  std::vector<std::string> currents = {};      ///< "drive=4", in ampere; default: 0, or the file's only point
  std::filesystem::path folder = {};           ///< empty: <file stem>_out in the current folder
  bool files = true;  ///< field.csv, its metadata, .png, .svg and .vtu; false: print only
  Halves halves = Halves::both;
  bool sensitivities = false;  ///< also what moves the force, ranked: printed, and sensitivities.csv
  std::vector<std::string> command = {};  ///< see RunOrigin
};

/// Solves one point, prints it, draws its field and writes it for viewers.
/// @throws BadDevice  also for a current that does not fit the device
ExitCode run_field(const PointOptions& options);

/// The device with just the point that the options name.
/// @throws BadDevice  when a current is no "circuit=number" of this device
Device at_one_point(Device device, const PointOptions& options);

}  // namespace coilpull
