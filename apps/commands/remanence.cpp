// SPDX-License-Identifier: GPL-3.0-or-later
#include "apps/commands/remanence.hpp"

#include <algorithm>
#include <iostream>

#include "apps/commands/results_folder.hpp"
#include "apps/commands/solve.hpp"
#include "apps/commands/write_manifest.hpp"
#include "apps/hysteresis/remanence_bracket.hpp"
#include "apps/output/safe_file.hpp"

namespace coilpull {

ExitCode run_remanence(const RemanenceOptions& options) {
  const DeviceFile file = open_device_file(options.device_file);
  RemanenceBracket bracket{hard_cores(file), {}, {}, {}};
  if (bracket.cores.empty())
    throw BadDevice(file.file_name +
                    ": no core can be left magnetised.\n  It takes a steel whose file states "
                    "coercive_field_A_per_m, as those of the catalogue do.");
  const std::filesystem::path folder = results_folder(options.device_file, options.folder);
  const ProgressStyle style = style_for_stderr();
  SolveChoice choice{options.threads};
  bracket.towards_plus =
      solve(left_magnetised(file, 1), file, choice, style);  // first: its meshes do for all
  choice.meshes = bracket.towards_plus.meshes;
  bracket.towards_minus = solve(left_magnetised(file, -1), file, choice, style);
  bracket.plain = solve(left_magnetised(file, 0), file, choice, style);
  std::cout << file.device.title << "\n\n" << remanence_text(bracket) << std::flush;
  std::vector<std::filesystem::path> written = {folder / "remanence.csv"};
  write_safely(written.front(), remanence_csv(bracket));
  write_manifest(folder, "remanence.csv", {options.command, {origin_of(file)}}, written);
  std::cout << "\n" << written_text(written);
  for (const ForceTable* table : {&bracket.towards_plus, &bracket.towards_minus})
    if (const ExitCode code = exit_code_for(*table); code != exit_good) return code;
  return exit_good;
}

}  // namespace coilpull
