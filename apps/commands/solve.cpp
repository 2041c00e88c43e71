// SPDX-License-Identifier: GPL-3.0-or-later
#include "apps/commands/solve.hpp"

#include <algorithm>
#include <iostream>

#include "apps/commands/stop_signal.hpp"
#include "solver/sweep/sweep.hpp"

namespace coilpull {

ForceTable solve(const DeviceFile& file, int threads, ProgressStyle style) {
  Progress progress(std::cerr, style);
  SweepOptions options;
  options.threads = threads;
  options.on_progress = [&](std::size_t rows_done, std::size_t rows) { progress.show(rows_done, rows); };
  options.stop_requested = stop_was_asked;
  watch_for_stop();
  try {
    ForceTable table = sweep(file.device, options);
    progress.end();
    return table;
  } catch (const BadSection& trouble) {
    progress.end();
    throw BadDevice(explain(trouble, file));
  }
}

ExitCode exit_code_for(const ForceTable& table) {
  const auto some_row = [&](auto is) { return std::any_of(table.rows.begin(), table.rows.end(), is); };
  if (some_row([](const Measurement& row) { return row.status == RowStatus::stopped; })) return exit_stopped;
  if (some_row([](const Measurement& row) { return row.status != RowStatus::ok; })) return exit_row_not_ok;
  return exit_good;
}

}  // namespace coilpull
