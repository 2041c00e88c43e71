// SPDX-License-Identifier: GPL-3.0-or-later
#include "apps/commands/judge.hpp"

#include <algorithm>
#include <iostream>

#include "apps/commands/results_folder.hpp"
#include "apps/commands/write_manifest.hpp"
#include "apps/input/force_table_file.hpp"
#include "apps/input/measured_file.hpp"
#include "apps/judgement/judge.hpp"
#include "apps/judgement/likely_cause.hpp"
#include "apps/output/judgement_picture.hpp"
#include "apps/output/judgement_text.hpp"
#include "apps/output/picture_files.hpp"
#include "apps/output/safe_file.hpp"

namespace coilpull {
namespace {

KnownNames names_of(const ForceTableFile& table) {
  KnownNames names{table.circuits, {}};
  for (std::size_t i = 0; i < table.circuits.size(); ++i) {
    const double first = table.currents_A.front()[i];
    const bool same = std::all_of(table.currents_A.begin(), table.currents_A.end(),
                                  [&](const auto& set) { return set[i] == first; });
    names.only_current_A.push_back(same ? std::optional<double>(first) : std::nullopt);
  }
  return names;
}

}  // namespace

ExitCode run_judge(const JudgeOptions& options) {
  const ForceGrid grid(read_force_table(read_csv_file(options.table_file)));
  const CsvFile points = read_csv_file(options.mine_file);
  const MeasuredFile mine = read_measured(points, names_of(grid.table()));
  const Judgement judgement = judge(grid, mine);
  const std::filesystem::path folder = results_folder(options.mine_file, options.folder);
  std::cout << judgement_text(judgement, grid.table(), mine, likely_cause(judgement, grid)) << std::flush;

  std::vector<std::filesystem::path> written = {folder / "judgement.csv"};
  write_safely(written.front(), judgement_csv(judgement, grid.table().circuits));
  const auto draw_into = [&](const CurvesPicture& picture, const char* stem) {
    const auto files = write_picture(draw(picture), folder, stem, picture.title);
    written.insert(written.end(), files.begin(), files.end());
  };
  if (!judgement.judged().empty()) {
    const std::string title =
        options.mine_file.filename().string() + " over " + options.table_file.filename().string();
    draw_into(judgement_picture(judgement, grid, title), "judgement");
    draw_into(judgement_ratio_picture(judgement, grid, title), "judgement_ratio");
  }
  const RunOrigin run{
      options.command,
      {},
      {input_file(grid.table().name, grid.table().sha256), input_file(points.name, points.sha256)}};
  write_manifest(folder, "judgement.csv", run, written);
  std::cout << "\n" << written_text(written);
  return exit_good;
}

}  // namespace coilpull
