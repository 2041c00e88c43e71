// SPDX-License-Identifier: GPL-3.0-or-later
#include "apps/commands/check.hpp"

#include <iostream>

#include "apps/commands/draw.hpp"
#include "apps/commands/results_folder.hpp"
#include "apps/commands/write_manifest.hpp"
#include "apps/device_file/canonical_text.hpp"
#include "apps/device_file/read_device_file.hpp"
#include "apps/output/device_text.hpp"
#include "apps/output/winding_text.hpp"
#include "solver/device/section_at.hpp"

namespace coilpull {
namespace {

void refuse_parts_that_meet(const DeviceFile& file) {
  try {
    check_stroke(file.device);
  } catch (const BadSection& trouble) {
    throw BadDevice(explain(trouble, file));
  }
}

}  // namespace

ExitCode run_check(const std::filesystem::path& device_file, const std::filesystem::path& picture_folder,
                   Halves halves, const std::vector<std::string>& command) {
  const DeviceFile file = open_device_file(device_file);
  std::cout << device_text(file.device) << winding_sheets_text(file.device);
  std::cout << warning_lines(file.device);
  refuse_parts_that_meet(file);
  std::cout << "The parts clear each other at every displacement.\n";
  if (picture_folder.empty()) return exit_good;
  const std::filesystem::path folder = results_folder(device_file, picture_folder);
  Paths written = draw_device_into(folder, file.device, halves);
  write_manifest(folder, "device.png", {command, {origin_of(file)}}, written);
  std::cout << written_text(written);
  return exit_good;
}

ExitCode run_check_canonical(const std::filesystem::path& device_file) {
  const DeviceFile file = open_device_file(device_file);
  refuse_parts_that_meet(file);
  std::cout << canonical_text(file);
  return exit_good;
}

}  // namespace coilpull
