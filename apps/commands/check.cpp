// SPDX-License-Identifier: GPL-3.0-or-later
#include "apps/commands/check.hpp"

#include <iostream>

#include "apps/device_file/read_device_file.hpp"
#include "apps/output/device_text.hpp"
#include "apps/output/number_text.hpp"
#include "meshing/check_section.hpp"
#include "solver/device/section_at.hpp"

namespace coilpull {
namespace {

/// @throws BadDevice  at the first displacement where the drawing cannot be meshed
void check_stroke(const DeviceFile& file) {
  for (const double displacement : file.device.displacements) {
    try {
      check_section(section_at(file.device, displacement));
    } catch (const BadSection& trouble) {
      throw BadDevice(explain(trouble, file) + "\n  At displacement " + shortest(in_mm(displacement)) +
                      " mm.");
    }
  }
}

}  // namespace

ExitCode run_check(const std::filesystem::path& device_file) {
  const DeviceFile file = open_device_file(device_file);
  std::cout << device_text(file.device);
  for (const std::string& warning : device_warnings(file.device)) std::cout << "warning: " << warning << "\n";
  check_stroke(file);
  std::cout << "The parts clear each other at every displacement.\n";
  return exit_good;
}

}  // namespace coilpull
