// SPDX-License-Identifier: GPL-3.0-or-later
#include "apps/commands/table.hpp"

#include <iostream>

#include "apps/commands/approximations.hpp"
#include "apps/commands/progress.hpp"
#include "apps/commands/results_folder.hpp"
#include "apps/commands/solve.hpp"
#include "apps/commands/spread_effects.hpp"
#include "apps/commands/write_cells.hpp"
#include "apps/commands/write_device.hpp"
#include "apps/commands/write_table.hpp"
#include "apps/device_file/read_device_file.hpp"
#include "apps/output/device_text.hpp"
#include "apps/output/safe_file.hpp"
#include "apps/output/summary.hpp"
#include "apps/output/vtu_file.hpp"

namespace coilpull {
ExitCode run_table(const TableOptions& options) {
  const DeviceFile file = open_device_file(options.device_file);
  const Approximations approximations(file.device, options.approximations, options.device_file.string());
  const std::filesystem::path folder = results_folder(options.device_file, options.folder);

  refuse_link_for_device(folder, file);
  if (options.vtu) require_vtu(), refuse_link(folder / "vtu");
  const ProgressStyle style = options.quiet ? ProgressStyle::silent : style_for_stderr();
  ForceTable table = solve(
      file, {options.threads, options.slopes, options.bodies, options.audit, options.row_limit_s}, style);
  approximations.add_to(table);
  std::vector<InputEffect> effects;
  if (options.spread && exit_code_for(table) != exit_stopped) {
    effects = effects_of(file, table, options.threads, style);
    add_spread(table, effects);
  }

  Paths written = write_table(folder, "force_table.csv", table, file, options.command);
  const std::string summary = summary_text(table, file.device.moving) + warning_lines(file.device) +
                              (options.spread ? "\n" + spread_text(table, effects) : "");
  written.push_back(folder / "summary.txt");
  write_safely(written.back(), summary);
  const Paths described = write_device(folder, "device.toml", file);
  written.insert(written.end(), described.begin(), described.end());
  if (options.quiet)
    std::cerr << trouble_text(table);
  else
    std::cout << file.device.title << "\n\n" << summary << std::flush;

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
