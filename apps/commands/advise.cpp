// SPDX-License-Identifier: GPL-3.0-or-later
#include "apps/commands/advise.hpp"

#include <algorithm>
#include <cmath>
#include <iostream>

#include "apps/advice/advice_runs.hpp"
#include "apps/advice/rating_advice.hpp"
#include "apps/advice/switching_advice.hpp"
#include "apps/commands/results_folder.hpp"
#include "apps/commands/solve.hpp"
#include "apps/output/curves_picture.hpp"
#include "apps/output/heat_text.hpp"
#include "apps/output/holding_text.hpp"
#include "apps/output/number_text.hpp"
#include "apps/output/picture_files.hpp"
#include "apps/output/rating_text.hpp"
#include "apps/output/safe_file.hpp"
#include "apps/output/sensor_text.hpp"
#include "apps/output/switching_text.hpp"

namespace coilpull {
namespace {

/// Where sections go as they are finished.
struct Pages {
  std::filesystem::path folder;
  std::string title;
  std::vector<std::filesystem::path> written = {};

  void add(const std::string& stem, const std::string& words, const std::string& csv,
           const CurvesPicture& picture) {
    std::cout << words << "\n" << std::flush;
    written.push_back(folder / (stem + ".csv"));
    write_safely(written.back(), csv);
    const auto drawn = write_picture(draw(picture), folder, stem, title);
    written.insert(written.end(), drawn.begin(), drawn.end());
  }
};

std::string drive_text(const DriveTable& drive) {
  std::string text = "Told for circuit " + drive.circuit +
                     (drive.others.empty() ? "" : ", " + drive.others + " (--circuit chooses)") +
                     "; on axis, one set of coils, statics. Bars are numerical, "
                     "and hold\nwhat the table's steps leave open between its points.\n";
  if (!drive.fit.within_bars())
    text += "Between its points the table is too coarse: the smooth function through it misses a row by " +
            rounded(drive.fit.force.bars, 3) +
            " force bars, so bars below are wider by that. More points help.\n";
  return text;
}

void refuse_gaps_outside(const DeviceFile& file) {
  if (!file.operation.mechanics) return;
  const auto [low, high] =
      std::minmax_element(file.device.displacements.begin(), file.device.displacements.end());
  for (const double gap : file.operation.mechanics->hold_at)
    if (gap < *low || gap > *high)
      throw BadDevice(file.file_name + ": [mechanics] hold_at_mm = " + shortest(in_mm(gap)) +
                      " lies outside the stroke, " + shortest(in_mm(*low)) + " to " + shortest(in_mm(*high)) +
                      " mm.\n  Widen displacement_mm in [motion], or choose another gap.");
}

/// @return  the current that the supply drives, as far as the table goes
double heat_and_ratings(const DeviceFile& file, const DriveTable& drive, Pages& pages) {
  const auto heat = heat_advice(file, drive);
  if (!heat) {
    std::cout << "Winding and heat, ratings: a coil of this circuit has no wire. [coil." << drive.circuit
              << "] wire = { diameter_mm = ... } tells resistance, and with it all of this.\n\n";
    return drive.strongest_A();
  }
  pages.add("advice_heat", heat_text(*heat), heat_csv(*heat), heat_picture(*heat, pages.title));
  const RatingAdvice ratings = rating_advice(file, drive, *heat);
  pages.add("advice_ratings", rating_text(ratings), rating_csv(ratings),
            rating_picture(ratings, pages.title));
  return std::abs(heat->table_current_A);
}

}  // namespace

ExitCode run_advise(const AdviseOptions& options) {
  const DeviceFile file = open_device_file(options.device_file);
  if (file.device.moving.empty() || file.device.displacements.size() < 2 || file.device.circuits.empty())
    throw BadDevice(
        file.file_name +
        ": advice needs a moving part, a circuit, and two displacements at least.\n  See [motion] "
        "and [current].");
  refuse_gaps_outside(file);
  Pages pages{results_folder(options.device_file, options.folder), file.device.title};
  const ProgressStyle style = style_for_stderr();
  const ForceTable table = solve(file, {options.threads}, style);
  if (const ExitCode code = exit_code_for(table); code == exit_stopped) return code;
  const DriveTable drive = drive_of(table, options.circuit);
  std::cout << file.device.title << "\n\n" << drive_text(drive) << "\n";

  const SolveChange solve_change = [&](const Device& device, const std::vector<MeshOrigin>& meshes) {
    SolveChoice choice{options.threads};
    choice.meshes = meshes;
    return solve(device, file, choice, style);
  };
  const double current_A = heat_and_ratings(file, drive, pages);
  bool any_sensor = false;
  for (const Sensor& sensor : file.device.sensors)
    if (file.operation.sensors.count(sensor.name)) {
      any_sensor = true;
      const SensorAdvice advice = sensor_advice(file, sensor, drive, table, solve_change);
      pages.add("advice_sensor_" + sensor.name, sensor_text(advice), sensor_csv(advice),
                sensor_picture(advice, pages.title));
    }
  if (!any_sensor)
    std::cout
        << "Sensor: none that switches. [sensor.<name>] with kind, operate_mT and release_mT tells where "
           "it would.\n\n";
  const SwitchingAdvice switching = switching_advice(table, drive, current_A);
  pages.add("advice_switching", switching_text(switching), switching_csv(switching),
            switching_picture(switching, drive, pages.title));
  if (!file.operation.mechanics)
    std::cout << "No [mechanics]: what follows knows no friction, load, spring or weight.\n";
  const HoldingAdvice holding = holding_advice(file, drive, solve_change);
  pages.add("advice_holding", holding_text(holding), holding_csv(holding),
            holding_picture(holding, pages.title));
  std::cout << written_text(pages.written);
  return exit_code_for(table);
}

}  // namespace coilpull
