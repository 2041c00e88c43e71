// SPDX-License-Identifier: GPL-3.0-or-later
#include "apps/advice/advice.hpp"

#include <algorithm>
#include <cmath>

#include "apps/device_file/bad_device.hpp"
#include "apps/output/number_text.hpp"

namespace coilpull {

void refuse_without_motion(const DeviceFile& file, const std::string& what) {
  if (file.device.moving.empty() || file.device.displacements.size() < 2 || file.device.circuits.empty())
    throw BadDevice(file.file_name + ": " + what +
                    " needs a moving part, a circuit, and two displacements at least.\n  See [motion] and "
                    "[current].");
}

void refuse_without_advice(const DeviceFile& file) {
  refuse_without_motion(file, "advice");
  if (!file.operation.mechanics) return;
  const auto [low, high] =
      std::minmax_element(file.device.displacements.begin(), file.device.displacements.end());
  for (const double gap : file.operation.mechanics->hold_at)
    if (gap < *low || gap > *high)
      throw BadDevice(file.file_name + ": [mechanics] hold_at_mm = " + shortest(in_mm(gap)) +
                      " lies outside the stroke, " + shortest(in_mm(*low)) + " to " + shortest(in_mm(*high)) +
                      " mm.\n  Widen displacement_mm in [motion], or choose another gap.");
}

Advice advise(const DeviceFile& file, const ForceTable& table, const std::string& circuit,
              const SolveChange& solve) {
  refuse_without_advice(file);
  const DriveTable drive = drive_of(table, circuit);
  const std::optional<HeatAdvice> heat = heat_advice(file, drive);
  std::optional<RatingAdvice> ratings;
  if (heat) ratings = rating_advice(file, drive, *heat);
  std::vector<SensorAdvice> sensors;
  for (const Sensor& sensor : file.device.sensors)
    if (file.operation.sensors.count(sensor.name))
      sensors.push_back(sensor_advice(file, sensor, drive, table, solve));
  // The current that the supply drives, as far as the table goes.
  const double current_A = heat ? std::abs(heat->table_current_A) : drive.strongest_A();
  HoldingAdvice holding = holding_advice(file, drive, solve);
  if (heat && !heat->source.assumed) {
    holding.cold_A = heat->current_A;
    holding.hot_A = hot_current_A(*heat);
  }
  return {drive,
          heat,
          ratings,
          sensors,
          switching_advice(table, drive, current_A),
          holding,
          file.operation.mechanics.has_value()};
}

}  // namespace coilpull
