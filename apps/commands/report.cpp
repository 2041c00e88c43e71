// SPDX-License-Identifier: GPL-3.0-or-later
#include "apps/commands/report.hpp"

#include <iostream>

#include "apps/commands/results_folder.hpp"
#include "apps/commands/table.hpp"
#include "apps/output/safe_file.hpp"
#include "apps/report/report_page.hpp"

namespace coilpull {

ExitCode run_report(const ReportOptions& options) {
  ExitCode code = exit_good;
  std::filesystem::path results = options.source, folder = options.source;
  if (!std::filesystem::is_directory(options.source)) {
    TableOptions table;
    table.device_file = options.source;
    table.folder = options.folder;
    table.threads = options.threads;
    table.spread = options.spread;
    table.pictures.wanted = false;
    table.quiet = options.quiet;
    code = run_table(table);
    if (code == exit_stopped) return code;
    results = folder = results_folder(options.source, options.folder);
  } else if (!options.folder.empty()) {
    folder = results_folder(options.source, options.folder);
  }
  const ResultFolder all = open_result_folder(results);
  const std::string page = report_page(all, picture_of_device(all.device.device),
                                       pictures_of_steels(all.device.device), pictures_of_fields(all));
  write_safely(folder / "report.html", page);
  if (!options.quiet) std::cout << written_text({folder / "report.html"});
  return code;
}

}  // namespace coilpull
