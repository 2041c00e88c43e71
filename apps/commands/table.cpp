// SPDX-License-Identifier: GPL-3.0-or-later
#include "apps/commands/table.hpp"

#include <fstream>
#include <iostream>
#include <sstream>

#include "apps/commands/progress.hpp"
#include "apps/commands/results_folder.hpp"
#include "apps/commands/solve.hpp"
#include "apps/commands/write_cells.hpp"
#include "apps/device_file/read_device_file.hpp"
#include "apps/output/csv_table.hpp"
#include "apps/output/csvw_metadata.hpp"
#include "apps/output/safe_file.hpp"
#include "apps/output/summary.hpp"
#include "apps/output/vtu_file.hpp"

namespace coilpull {
namespace {

namespace fs = std::filesystem;

Origin origin_of(const fs::path& device_file, const std::string& title) {
  std::ifstream in(device_file, std::ios::binary);
  std::ostringstream content;
  content << in.rdbuf();
  return {title, device_file.filename().string(), content.str()};
}

}  // namespace

ExitCode run_table(const TableOptions& options) {
  const DeviceFile file = open_device_file(options.device_file);
  const Origin origin = origin_of(options.device_file, file.device.title);
  const fs::path folder = results_folder(options.device_file, options.folder);

  if (options.vtu) require_vtu();
  const ProgressStyle style = options.quiet ? ProgressStyle::silent : style_for_stderr();
  const ForceTable table = solve(file, options.threads, style);

  Paths written = {folder / "force_table.csv", folder / "force_table.csv-metadata.json"};
  write_safely(written[0], csv_text(table));
  write_safely(written[1], csvw_metadata(table, origin));
  if (options.quiet)
    std::cerr << trouble_text(table);
  else
    std::cout << file.device.title << "\n\n" << summary_text(table, file.device.moving) << std::flush;

  const ExitCode code = exit_code_for(table);
  if (options.pictures.wanted && code != exit_stopped) {
    const Paths drawn = draw_table_into(folder, file.device, table, options.pictures.halves);
    written.insert(written.end(), drawn.begin(), drawn.end());
  }
  if (options.vtu && code != exit_stopped) {
    const Paths cells = write_cells_along_stroke(folder, file.device, table);
    written.insert(written.end(), cells.begin(), cells.end());
  }
  if (!options.quiet) std::cout << "\n" << written_text(written);
  return code;
}

}  // namespace coilpull
