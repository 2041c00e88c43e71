// SPDX-License-Identifier: GPL-3.0-or-later
#include "apps/commands/offset.hpp"

#include <algorithm>
#include <cmath>
#include <iostream>
#include <limits>

#include "apps/commands/draw.hpp"
#include "apps/commands/results_folder.hpp"
#include "apps/commands/write_manifest.hpp"
#include "apps/device_file/read_device_file.hpp"
#include "apps/offset/offset_point.hpp"
#include "apps/output/offset_text.hpp"
#include "apps/output/picture_files.hpp"
#include "apps/output/safe_file.hpp"
#include "materials/constants.hpp"

namespace coilpull {
namespace {

/// The same point with the current, reversed, and without, on the axis.
OnAxis solved_on_axis(const DeviceFile& file, const OffsetQuestion& question, ExitCode& code) {
  Device device = file.device;
  std::vector<double> reversed = question.currents_A;
  for (double& current : reversed) current = -current;
  device.displacements = {question.displacement};
  device.currents_A = {question.currents_A, reversed, std::vector<double>(reversed.size(), 0.0)};
  SolveChoice choice;
  choice.slopes = true;
  const ForceTable table = solve(device, file, choice, ProgressStyle::silent);
  code = exit_code_for(table);
  const Measured with = table.rows[0].force_N, back = table.rows[1].force_N;
  const std::optional<Slopes>& slopes = table.rows[2].slopes;
  return {with,
          {(with.value - back.value) / 2, (with.error + back.error) / 2},
          table.rows[2].force_N,
          slopes ? slopes->force_per_displacement : std::numeric_limits<double>::quiet_NaN()};
}

}  // namespace

ExitCode run_offset(const OffsetOptions& options) {
  DeviceFile file = open_device_file(options.point.device_file);
  const std::string name = options.point.device_file.string();
  if (const std::string why = why_no_offset(file.device); !why.empty())
    throw BadDevice(
        name + ": " + why +
        "\n  Off axis: coils, cores that stand still, and magnets that move, magnetised along z.");
  file.device = at_one_point(std::move(file.device), options.point);
  OffsetQuestion question{file.device.displacements.front(),
                          file.device.currents_A.front(),
                          1e-3 * options.offset_mm,
                          options.tilt_deg * pi / 180,
                          {}};
  if (options.pair_distance_mm) question.pair_distance = 1e-3 * *options.pair_distance_mm;
  if (std::all_of(question.currents_A.begin(), question.currents_A.end(), [](double i) { return i == 0; }))
    throw BadDevice(
        name + ": no current flows.\n  Off axis the force of the current is told: give one by --current.");
  Mesher mesher;
  std::string why;
  const auto point = offset_point(file.device, question, mesher, why);
  if (!point)
    throw BadDevice(name + ": " + why + "\n  Choose another --offset-mm, --tilt-deg, --displacement-mm.");
  ExitCode code = exit_good;
  const OnAxis full = solved_on_axis(file, question, code);
  if (code == exit_stopped) return code;
  std::cout << file.device.title << "\n\n" << offset_text(file.device, question, *point, full);
  if (!options.point.files || point->way.empty()) return code;
  const std::filesystem::path folder = results_folder(options.point.device_file, options.point.folder);
  Paths written = {folder / "offset.csv"};
  write_safely(written.front(), offset_csv(*point));
  const Paths drawn = write_picture(draw(offset_picture(question, *point, file.device.title)), folder,
                                    "offset", file.device.title);
  written.insert(written.end(), drawn.begin(), drawn.end());
  write_manifest(folder, "offset.csv", {options.point.command, {origin_of(file)}}, written);
  std::cout << "\n" << written_text(written);
  return code;
}

}  // namespace coilpull
