// SPDX-License-Identifier: GPL-3.0-or-later
#include "apps/motion/sensor_level.hpp"

#include <algorithm>
#include <cmath>
#include <optional>

#include "apps/device_file/nearest_name.hpp"

namespace coilpull {
namespace {

struct Between {
  std::size_t low;
  double part;
};

Between between(const std::vector<double>& rising, double x) {
  const auto above = std::upper_bound(rising.begin() + 1, rising.end() - 1, x);
  const auto low = static_cast<std::size_t>(above - rising.begin()) - 1;
  return {low, std::clamp((x - rising[low]) / (rising[low + 1] - rising[low]), 0.0, 1.0)};
}

/// The entry that is x but for rounding through a CSV file.
std::optional<std::size_t> near(const std::vector<double>& rising, double x) {
  for (std::size_t k = 0; k < rising.size(); ++k)
    if (std::abs(rising[k] - x) <= 1e-9 * (rising.back() - rising.front())) return k;
  return std::nullopt;
}

}  // namespace

std::string switching_sensor_advice(const DeviceFile& file, const std::string& name) {
  std::vector<std::string> known;
  for (const auto& [known_name, one] : file.operation.sensors) known.push_back(known_name);
  return known.empty() ? "[sensor." + name + "] needs kind, operate_mT and release_mT."
                       : did_you_mean(name, known);
}

const SwitchingSensor& switching_sensor(const DeviceFile& file, const std::string& name) {
  const auto sheet = file.operation.sensors.find(name);
  if (sheet != file.operation.sensors.end()) return sheet->second;
  throw BadDevice(file.file_name + ": no sensor \"" + name + "\" switches in this file.\n  " +
                  switching_sensor_advice(file, name));
}

SensorLevel sensor_level(const DeviceFile& file, const std::string& name, const ForceTable& table,
                         const DriveTable& drive, bool operates) {
  const SwitchingSensor& sheet = switching_sensor(file, name);
  const auto& all = file.device.sensors;
  const auto found = std::find_if(all.begin(), all.end(), [&](const Sensor& s) { return s.name == name; });
  const auto sensor = static_cast<std::size_t>(found - all.begin());
  const auto circuit = static_cast<std::size_t>(
      std::find(table.circuits.begin(), table.circuits.end(), drive.circuit) - table.circuits.begin());
  const std::vector<double>&z = drive.displacements, &i = drive.currents_A;
  std::vector<double> along(z.size() * i.size(), 0.0);
  std::vector<double> others(along.size(), INFINITY);  // the other circuits of the row that is taken
  for (const Measurement& row : table.rows) {
    const auto at = near(z, row.displacement), current = near(i, row.currents_A[circuit]);
    if (!at || !current || sensor >= row.sensors.size()) continue;
    double sum = 0;
    for (std::size_t c = 0; c < row.currents_A.size(); ++c)
      if (c != circuit) sum += std::abs(row.currents_A[c]);
    const std::size_t n = *at * i.size() + *current;
    if (sum >= others[n]) continue;
    others[n] = sum;
    along[n] = sheet.direction_r * row.sensors[sensor].br_T + sheet.direction_z * row.sensors[sensor].bz_T;
  }
  const double threshold = operates ? sheet.operate.typical : sheet.release.typical;
  const double sign = operates ? 1 : -1;
  return {[=, z = z, i = i](double displacement, double current_A) {
            const Between dz = between(z, displacement), di = between(i, current_A);
            const auto value = [&](std::size_t a, std::size_t b) {
              return along[(dz.low + a) * i.size() + di.low + b];
            };
            const double low = value(0, 0) + di.part * (value(0, 1) - value(0, 0));
            const double high = value(1, 0) + di.part * (value(1, 1) - value(1, 0));
            return sign * (low + dz.part * (high - low) - threshold);
          },
          sheet.delay};
}

}  // namespace coilpull
