// SPDX-License-Identifier: GPL-3.0-or-later
#include "apps/commands/calibrate.hpp"

#include <algorithm>
#include <iostream>

#include "apps/calibration/calibrate.hpp"
#include "apps/calibration/fit_module.hpp"
#include "apps/calibration/measured_model.hpp"
#include "apps/commands/results_folder.hpp"
#include "apps/commands/solve.hpp"
#include "apps/commands/stop_signal.hpp"
#include "apps/commands/write_manifest.hpp"
#include "apps/output/calibration_text.hpp"
#include "apps/output/safe_file.hpp"

namespace coilpull {
namespace {

KnownNames names_of(const Device& device) {
  KnownNames names{device.circuits, {}};
  for (std::size_t i = 0; i < device.circuits.size(); ++i) {
    const double first = device.currents_A.front()[i];
    const bool same = std::all_of(device.currents_A.begin(), device.currents_A.end(),
                                  [&](const auto& set) { return set[i] == first; });
    names.only_current_A.push_back(same ? std::optional<double>(first) : std::nullopt);
  }
  for (const Sensor& sensor : device.sensors) names.sensors.push_back(sensor.name);
  return names;
}

bool is_told(const Calibration& made) {
  return made.settled && made.estimate.confused.empty() && made.estimate.without_effect.empty();
}

}  // namespace

ExitCode run_calibrate(const CalibrateOptions& options) {
  require_least_squares();
  const DeviceFile file = open_device_file(options.device_file);
  const std::vector<Parameter> parameters =
      read_parameters(options.fit, file.device, options.device_file.string());
  const CsvFile points = read_csv_file(options.measured_file);
  const MeasuredFile measured = read_measured(points, names_of(file.device), {true, true, true});
  const auto solve_like = [&](const Device& device, bool slopes) {
    DeviceFile changed = file;
    changed.device = device;
    SolveChoice choice;
    choice.threads = options.threads;
    choice.slopes = slopes;
    return solve(changed, choice, ProgressStyle::silent);
  };
  const MeasuredModel model(file.device, measured, parameters, solve_like);
  const std::filesystem::path folder = results_folder(options.device_file, options.folder);
  std::cerr << "Solving what was measured for one set of values after the other\n";
  const Calibration made = calibrate([&](const Eigen::VectorXd& values) { return model.at(values); },
                                     model.start(), model.steps(), model.numbers());
  if (stop_was_asked()) return exit_stopped;
  std::cout << calibration_text(made, model, measured, file.device);
  if (!made.trouble.empty()) return exit_row_not_ok;
  std::vector<std::filesystem::path> written = {folder / "calibration.csv",
                                                folder / "calibration_points.csv"};
  write_safely(written[0], calibration_csv(made, model));
  write_safely(written[1], calibration_points_csv(made, model, measured));
  write_manifest(folder, "calibration.csv",
                 {options.command, {origin_of(file)}, {input_file(points.name, points.sha256)}}, written);
  std::cout << "\n" << written_text(written);
  return is_told(made) ? exit_good : exit_row_not_ok;
}

}  // namespace coilpull
