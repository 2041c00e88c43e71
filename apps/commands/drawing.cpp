// SPDX-License-Identifier: GPL-3.0-or-later
#include "apps/commands/drawing.hpp"

#include <iostream>

#include "apps/commands/results_folder.hpp"
#include "apps/commands/write_manifest.hpp"
#include "apps/device_file/read_device_file.hpp"
#include "apps/drawing/part_list.hpp"
#include "apps/output/picture_files.hpp"
#include "apps/output/safe_file.hpp"
#include "apps/output/sheet_drawing.hpp"

namespace coilpull {

ExitCode run_drawing(const DrawingOptions& options) {
  const DeviceFile file = open_device_file(options.device_file);
  const Device& device = file.device;
  const std::filesystem::path folder = results_folder(options.device_file, options.folder);
  const Sheet sheet = draw_sheet(device, options.spare_percent / 100);
  std::cout << device.title << ": " << sheet.paper.scale_words() << " on " << sheet.paper.paper.name
            << " (ISO 216)\n";
  for (const PartLine& part : part_list(device, options.spare_percent / 100))
    std::cout << "  " << part.name << ": " << part.what << "; " << part.material << "; " << part.size << "\n";
  std::vector<std::filesystem::path> written = write_picture(sheet.canvas, folder, "drawing", device.title);
  written.push_back(folder / "drawing.pdf");
  write_safely(written.back(), sheet.canvas.pdf(device.title));
  write_manifest(folder, "drawing.pdf", {options.command, {origin_of(file)}}, written);
  std::cout << written_text(written);
  return exit_good;
}

}  // namespace coilpull
