// SPDX-License-Identifier: GPL-3.0-or-later
#include "apps/commands/bench.hpp"

#include <algorithm>
#include <iostream>

#include "apps/bench/bench_sheet.hpp"
#include "apps/commands/results_folder.hpp"
#include "apps/commands/solve.hpp"
#include "apps/commands/write_manifest.hpp"
#include "apps/output/bench_text.hpp"
#include "apps/output/safe_file.hpp"

namespace coilpull {

ExitCode run_bench(const BenchOptions& options) {
  const DeviceFile file = open_device_file(options.device_file);
  const std::filesystem::path folder = results_folder(options.device_file, options.folder);
  ExitCode code = exit_good;
  const auto solve_like = [&](const Device& device, bool slopes) {
    DeviceFile changed = file;
    changed.device = device;
    SolveChoice choice;
    choice.threads = options.threads;
    choice.slopes = slopes;
    ForceTable table = solve(changed, choice, ProgressStyle::silent);
    code = std::max(code, exit_code_for(table));
    return table;
  };
  const BenchSheet sheet = bench_sheet(file.device, solve_like);
  if (code == exit_stopped) return code;
  const std::string text = bench_text(sheet, file.device);
  std::vector<std::filesystem::path> written = {folder / "bench_sheet.txt", folder / "bench_sheet.csv"};
  write_safely(written[0], text);
  write_safely(written[1], bench_csv(sheet, file.device));
  write_manifest(folder, "bench_sheet.csv", {options.command, {origin_of(file)}}, written);
  std::cout << text << "\n" << written_text(written);
  return code;
}

}  // namespace coilpull
