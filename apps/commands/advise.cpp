// SPDX-License-Identifier: GPL-3.0-or-later
#include "apps/commands/advise.hpp"

#include <iostream>

#include "apps/commands/results_folder.hpp"
#include "apps/commands/solve.hpp"
#include "apps/commands/stop_signal.hpp"
#include "apps/commands/write_manifest.hpp"
#include "apps/output/advice_text.hpp"
#include "apps/output/picture_files.hpp"
#include "apps/output/safe_file.hpp"

namespace coilpull {

SolveChange solve_beside(const DeviceFile& file, int threads, ProgressStyle style) {
  return [&file, threads, style](const Device& device, const std::vector<MeshOrigin>& meshes) {
    SolveChoice choice{threads};
    choice.meshes = meshes;
    return solve(device, file, choice, style);
  };
}

namespace {

ExitCode tell_advice(const AdviseOptions& options, const DeviceFile& file,
                     const std::filesystem::path& folder, const ForceTable& table, ProgressStyle style) {
  const Advice advice = advise(file, table, options.circuit, solve_beside(file, options.threads, style));
  if (stop_was_asked()) return exit_stopped;

  std::cout << file.device.title << "\n\n" << advice_head_text(advice) << "\n";
  std::vector<std::filesystem::path> written;
  for (const AdviceSection& section : advice_sections(advice, file.device.title)) {
    std::cout << section.title << "\n" << section.words << "\n";
    if (!section.csv.empty()) {
      written.push_back(folder / (section.stem + ".csv"));
      write_safely(written.back(), section.csv);
    }
    if (section.picture) {
      const auto drawn = write_picture(draw(*section.picture), folder, section.stem, file.device.title);
      written.insert(written.end(), drawn.begin(), drawn.end());
    }
  }
  write_manifest(folder, "advice", {options.command, {origin_of(file)}}, written);
  std::cout << written_text(written);
  return exit_code_for(table);
}

}  // namespace

ExitCode run_advise(const AdviseOptions& options) {
  const DeviceFile file = open_device_file(options.device_file);
  refuse_without_advice(file);
  const std::filesystem::path folder = results_folder(options.device_file, options.folder);
  const ProgressStyle style = style_for_stderr();
  const ForceTable table = solve(file, {options.threads}, style);
  if (const ExitCode code = exit_code_for(table); code == exit_stopped) return code;
  return with_usable_rows(table, [&] { return tell_advice(options, file, folder, table, style); });
}

}  // namespace coilpull
