// SPDX-License-Identifier: GPL-3.0-or-later
#include "apps/commands/compare.hpp"

#include <algorithm>
#include <iostream>

#include "apps/commands/results_folder.hpp"
#include "apps/commands/solve.hpp"
#include "apps/commands/write_manifest.hpp"
#include "apps/comparison/candidates.hpp"
#include "apps/output/comparison_text.hpp"
#include "apps/output/picture_files.hpp"
#include "apps/output/safe_file.hpp"
#include "apps/output/summary.hpp"

namespace coilpull {
namespace {

/// Tolerance of the first over that of the others: its meshes have to do for all.
constexpr double finer = 0.5;

SolvedCandidate solve_candidate(const Candidate& candidate, const DeviceFile& file, const SolveChoice& choice,
                                ProgressStyle style) {
  if (style != ProgressStyle::silent) std::cerr << candidate.name << "\n";
  SolvedCandidate solved{candidate.name, candidate.devices, {}};
  for (const Device& device : candidate.devices) solved.tables.push_back(solve(device, file, choice, style));
  return solved;
}

/// Forces that are held against each other need bars that are narrow beside the largest of all, whichever has
/// it.
void accept_by_largest_force(std::vector<SolvedCandidate>& candidates, double tolerance) {
  double largest = 0;
  for (const SolvedCandidate& candidate : candidates)
    for (const ForceTable& table : candidate.tables) largest = std::max(largest, table.peak_force_N);
  for (SolvedCandidate& candidate : candidates)
    for (ForceTable& table : candidate.tables)
      for (Measurement& row : table.rows)
        if (row.status == RowStatus::tolerance_not_met && row.force_N.error <= tolerance * largest)
          row.status = RowStatus::ok, row.why.clear();
}

/// One device, changed: everything on the meshes of the first. Adds what it reads to `run`.
std::vector<SolvedCandidate> solve_changes(const DeviceFile& file, const CompareOptions& options,
                                           SolveChoice choice, ProgressStyle style, RunOrigin& run) {
  std::vector<Candidate> candidates = candidates_of(file, options.changes);
  for (const Candidate& candidate : candidates)
    run.files.insert(run.files.end(), candidate.read.begin(), candidate.read.end());
  const double tolerance = file.device.tolerance;
  candidates.front().devices.front().tolerance = finer * tolerance;
  std::vector<SolvedCandidate> solved;
  for (const Candidate& candidate : candidates) {
    solved.push_back(solve_candidate(candidate, file, choice, style));
    if (choice.meshes.empty()) choice.meshes = solved.front().tables.front().meshes;
    if (exit_code_for(solved.back().tables.front()) == exit_stopped) break;
  }
  accept_by_largest_force(solved, tolerance);
  return solved;
}

void require_like_circuits(const DeviceFile& first, const DeviceFile& other) {
  if (first.device.circuits != other.device.circuits)
    throw BadDevice(other.file_name + ": its circuits are not those of " + first.file_name +
                    ".\n  Devices to be compared name the same circuits in the same order.");
}

std::vector<SolvedCandidate> solve_files(const std::vector<DeviceFile>& files, const SolveChoice& choice,
                                         ProgressStyle style) {
  std::vector<SolvedCandidate> solved;
  for (const DeviceFile& file : files) {
    require_like_circuits(files.front(), file);
    const std::string name = std::filesystem::path(file.file_name).stem().string();
    solved.push_back(solve_candidate({name, {file.device}}, file, choice, style));
    if (exit_code_for(solved.back().tables.front()) == exit_stopped) break;
  }
  return solved;
}

ExitCode worst_code(const std::vector<SolvedCandidate>& candidates) {
  ExitCode code = exit_good;
  for (const SolvedCandidate& candidate : candidates)
    for (const ForceTable& table : candidate.tables) code = std::max(code, exit_code_for(table));
  return code;
}

}  // namespace

ExitCode run_compare(const CompareOptions& options) {
  if (options.device_files.size() > 1 && !options.changes.empty())
    throw BadDevice(
        "--with changes one device; there are several.\n  Name one device file, or leave --with out.");
  if (options.device_files.size() == 1 && options.changes.empty())
    throw BadDevice(
        options.device_files.front().string() +
        ": there is nothing to compare it with.\n  Name more device files, or changes like --with "
        "sleeve=\"team 13 steel\"; --with sleeve=none takes the core away.");
  std::vector<DeviceFile> files;
  for (const std::filesystem::path& path : options.device_files) files.push_back(open_device_file(path));
  RunOrigin run{options.command};
  for (const DeviceFile& file : files) run.devices.push_back(origin_of(file));
  const std::filesystem::path folder = results_folder(options.device_files.front(), options.folder);
  const ProgressStyle style = options.quiet ? ProgressStyle::silent : style_for_stderr();
  const SolveChoice choice{options.threads};
  const bool one_shape = files.size() == 1;
  const std::vector<SolvedCandidate> solved = one_shape
                                                  ? solve_changes(files.front(), options, choice, style, run)
                                                  : solve_files(files, choice, style);
  const ExitCode code = worst_code(solved);

  std::cout << files.front().device.title << "\n" << comparison_text(solved, one_shape);
  for (const SolvedCandidate& candidate : solved)
    for (const ForceTable& table : candidate.tables)
      if (const std::string trouble = trouble_text(table); !trouble.empty())
        std::cout << candidate.name << ": " << trouble;
  std::cout << std::flush;
  std::vector<std::filesystem::path> written = {folder / "comparison.csv"};
  write_safely(written.front(), comparison_csv(solved));
  if (code != exit_stopped)
    for (const auto& file : write_picture(draw(comparison_picture(solved, files.front().device.title)),
                                          folder, "comparison", files.front().device.title))
      written.push_back(file);
  write_manifest(folder, "comparison.csv", run, written);
  std::cout << "\n" << written_text(written);
  return code;
}

}  // namespace coilpull
