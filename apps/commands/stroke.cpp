// SPDX-License-Identifier: GPL-3.0-or-later
#include "apps/commands/stroke.hpp"

#include <iostream>
#include <optional>

#include "apps/commands/results_folder.hpp"
#include "apps/commands/solve.hpp"
#include "apps/commands/spread_effects.hpp"
#include "apps/motion/best_switching.hpp"
#include "apps/motion/stroke_cautions.hpp"
#include "apps/motion/stroke_faults.hpp"
#include "apps/motion/two_stages.hpp"
#include "apps/output/picture_files.hpp"
#include "apps/output/safe_file.hpp"
#include "apps/output/stroke_text.hpp"

namespace coilpull {
namespace {

/// Highest speed at the end by leads, and by the pitch of a row. Tells what it gains.
StrokePlan best_of(const DeviceFile& file, const StrokePlan& plan, const DriveTable& drive) {
  const BestSwitching best = best_switching(file, plan, drive.fit.function, best_options(plan, drive));
  std::cout << best_text(best, plan) << "\n";
  return best.plan;
}

std::optional<double> check_row(const DeviceFile& file, const DriveTable& drive, const StrokePlan& plan,
                                double current_A, int threads) {
  if (plan.setup.stages.size() < 2) return std::nullopt;
  const double at_most =
      current_A < 0 ? std::max(current_A, drive.least_A()) : std::min(current_A, drive.most_A());
  const RowCheck check =
      row_check(file, drive, plan, at_most, [&](const Device& device, const std::vector<MeshOrigin>& meshes) {
        SolveChoice choice{threads};
        choice.meshes = meshes;
        return solve(device, file, choice, style_for_stderr());
      });
  std::cout << row_check_text(check);
  return check.part;
}

std::vector<std::filesystem::path> write_stroke(const std::filesystem::path& folder, const DeviceFile& file,
                                                const StrokePlan& plan, const SwitchedRun& run,
                                                const StrokeFigures& figures,
                                                const std::vector<std::string>& command) {
  const std::string& title = file.device.title;
  std::vector<std::filesystem::path> written = {folder / "stroke.csv", folder / "stroke.csv-metadata.json",
                                                folder / "stroke_stages.csv"};
  const std::string csv = stroke_csv(plan, run);
  const RunOrigin origin{command, {origin_of(file)}};
  write_safely(written[0], csv);
  write_safely(written[1], stroke_metadata(plan, run, figures, origin, "stroke.csv", csv));
  write_safely(written[2], stages_csv(figures));
  const auto drawn = write_picture(draw_stroke(plan, run, title), folder, "stroke", title);
  written.insert(written.end(), drawn.begin(), drawn.end());
  return written;
}

ExitCode tell_stroke(const StrokeVerbOptions& options, const DeviceFile& file,
                     const std::filesystem::path& folder, const ForceTable& table) {
  const DriveTable drive = drive_of(table, options.circuit);
  const auto heat = heat_advice(file, drive);
  StrokePlan plan = plan_stroke(file, table, drive, heat_of_stroke(file, drive, heat), options.choice);
  std::cout << file.device.title << "\n\n";
  if (options.best) plan = best_of(file, plan, drive);
  const SwitchedRun run = simulate_switched_stroke(drive.fit.function, plan.setup, plan.start, plan.options);
  const StrokeFigures figures = stroke_figures(plan, run, drive, table);
  std::cout << "Stroke\n" << stroke_text(plan, run, figures) << std::flush;
  const auto row_part = options.row_check ? check_row(file, drive, plan, figures.peak_A, options.threads)
                                          : std::optional<double>{};
  for (const std::string& words : stroke_cautions(file, plan, run, figures, drive, row_part))
    std::cout << "  " << words << "\n";
  std::cout << "  On axis, statics: what a mover that rubs or tilts loses is not in the numbers.\n";
  if (!options.spread)
    std::cout
        << "  The band knows the bars of the force only; --spread adds what grade, temperature, steel and "
           "position leave open.\n";
  std::cout << "\n" << written_text(write_stroke(folder, file, plan, run, figures, options.command));
  return exit_code_for(table);
}

}  // namespace

ExitCode run_stroke(const StrokeVerbOptions& options) {
  const DeviceFile file = open_device_file(options.device_file);
  refuse_stroke(file, options.choice, options.circuit);
  const auto folder = results_folder(options.device_file, options.folder);
  const ProgressStyle style = style_for_stderr();
  ForceTable table = solve(file, {options.threads}, style);
  if (exit_code_for(table) == exit_stopped) return exit_stopped;
  if (options.spread) add_spread(table, effects_of(file, table, options.threads, style));
  return with_usable_rows(table, [&] { return tell_stroke(options, file, folder, table); });
}

}  // namespace coilpull
