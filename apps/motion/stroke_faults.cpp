// SPDX-License-Identifier: GPL-3.0-or-later
#include "apps/motion/stroke_faults.hpp"

#include <algorithm>
#include <cmath>
#include <set>

#include "apps/advice/advice.hpp"
#include "apps/device_file/nearest_name.hpp"
#include "apps/motion/sensor_level.hpp"
#include "apps/output/number_text.hpp"

namespace coilpull {
namespace {

/// What the table gives of the stroke, narrowed to the stops.
std::pair<double, double> reach(const DeviceFile& file, double low, double high) {
  if (file.operation.mechanics && file.operation.mechanics->stops) {
    low = std::max(low, file.operation.mechanics->stops->from);
    high = std::min(high, file.operation.mechanics->stops->to);
  }
  return {low, high};
}

std::optional<StrokeFault> device_fault(const DeviceFile& file) {
  if (!file.operation.supply || !file.operation.supply->voltage)
    return StrokeFault{"", "", "a stroke needs a voltage that drives the current.",
                       "Give [supply] voltage_V, and capacitor_uF or current_limit_A where there is one."};
  if (!file.operation.mechanics || !file.operation.mechanics->mass)
    return StrokeFault{"", "", "a stroke needs the mass that moves.", "Give [mechanics] mass_g."};
  return std::nullopt;
}

std::optional<StrokeFault> sensor_fault(const DeviceFile& file, const std::string& option,
                                        const std::string& sensor) {
  if (sensor.empty() || file.operation.sensors.count(sensor) > 0) return std::nullopt;
  return StrokeFault{option, sensor, "is no sensor that switches.", switching_sensor_advice(file, sensor)};
}

std::optional<StrokeFault> row_fault(const DeviceFile& file, const StrokeChoice& choice) {
  const double length = standing_length(file.device);
  if (choice.stages < 2 || choice.pitch_mm * 1e-3 >= length) return std::nullopt;
  const std::string why = "the standing parts of a stage are " + rounded(in_mm(length), 4) +
                          " mm long, so the next would lie in them.";
  const std::string advice = "Give a pitch of that at least.";
  if (choice.pitch_mm == 0) return StrokeFault{"stages", "", "needs --pitch-mm: " + why, advice};
  return StrokeFault{"pitch-mm", shortest(choice.pitch_mm), "is too short: " + why, advice};
}

std::set<double> currents_of(const Device& device, std::size_t circuit) {
  std::set<double> currents;
  for (const auto& set : device.currents_A) currents.insert(set.at(circuit));
  return currents;
}

std::optional<StrokeFault> table_fault(const DeviceFile& file, const std::string& circuit) {
  const Device& device = file.device;
  const auto named = std::find(device.circuits.begin(), device.circuits.end(), circuit);
  auto number = static_cast<std::size_t>(named - device.circuits.begin());
  if (circuit.empty())
    for (number = 0; number < device.circuits.size() && currents_of(device, number).size() < 2;) ++number;
  if (number >= device.circuits.size() && !circuit.empty())
    return StrokeFault{"circuit", circuit, "is no circuit of the device.",
                       did_you_mean(circuit, device.circuits)};
  number = std::min(number, device.circuits.size() - 1);
  const std::string& name = device.circuits[number];
  const std::set<double> currents = currents_of(device, number);
  if (currents.empty()) return few_currents_fault(name, 0, 0, 0);
  if (auto fault = few_currents_fault(name, currents.size(), *currents.begin(), *currents.rbegin()))
    return fault;
  const auto [low, high] = std::minmax_element(device.displacements.begin(), device.displacements.end());
  if (auto fault = stops_fault(file, *low, *high)) return fault;
  for (const Coil& coil : device.coils)
    if (coil.circuit == name && !coil.wire) return no_wire_fault(coil.name);
  return std::nullopt;
}

}  // namespace

void refuse_stroke_for(const DeviceFile& file, const StrokeFault& fault) {
  std::string words = file.file_name + (file.file_name.empty() ? "" : ": ");
  if (!fault.option.empty())
    words += "--" + fault.option + (fault.value.empty() ? "" : " " + fault.value) + " ";
  throw BadDevice(words + fault.fact + "\n  " + fault.advice);
}

std::optional<StrokeFault> few_currents_fault(const std::string& circuit, std::size_t count, double least_A,
                                              double most_A) {
  if (count >= 3 && least_A <= 0 && most_A >= 0) return std::nullopt;
  return StrokeFault{"", "", "a stroke needs a table with current 0 within it and three currents at least.",
                     "Give " + circuit + "_A = { from = ..., to = ..., points = ... } in [current]."};
}

std::optional<StrokeFault> stops_fault(const DeviceFile& file, double from, double to) {
  const auto& stops = file.operation.mechanics->stops;
  if (!stops || (stops->from >= from && stops->to <= to)) return std::nullopt;
  return StrokeFault{"", "", "[mechanics] stops reach beyond the table.",
                     "Widen displacement_mm in [motion]."};
}

StrokeFault no_wire_fault(const std::string& coil) {
  return {"", "", "a stroke needs the winding's resistance.",
          "Give [coil." + coil + "] wire = { diameter_mm = ... }."};
}

double stroke_start(const DeviceFile& file, double low, double high, const StrokeChoice& choice) {
  const auto [from, to] = reach(file, low, high);
  return choice.start_mm ? std::clamp(*choice.start_mm * 1e-3, from, std::max(from, to)) : from;
}

std::optional<StrokeFault> start_fault(const DeviceFile& file, double low, double high,
                                       const StrokeChoice& choice) {
  const auto [from, to] = reach(file, low, high);
  const double start = choice.start_mm ? *choice.start_mm * 1e-3 : from, rounding = 1e-9 * (high - low);
  if (start >= from - rounding && start <= to + rounding) return std::nullopt;
  return StrokeFault{
      "start-mm", shortest(in_mm(start)),
      "lies outside the stroke, " + shortest(in_mm(from)) + " to " + shortest(in_mm(to)) + " mm.",
      "Start within, or widen displacement_mm in [motion]."};
}

double standing_length(const Device& device) {
  double low = INFINITY, high = -INFINITY;
  const auto take = [&](const std::string& name, const Outline& outline) {
    if (is_moving(device, name)) return;
    const Box box = bounding_box(outline);
    low = std::min(low, box.z_from), high = std::max(high, box.z_to);
  };
  for (const Core& core : device.cores) take(core.name, core.outline);
  for (const Coil& coil : device.coils) take(coil.name, coil.outline);
  for (const Magnet& magnet : device.magnets) take(magnet.name, magnet.outline);
  return high - low;
}

std::optional<StrokeFault> stroke_fault(const DeviceFile& file, const StrokeChoice& choice,
                                        const std::string& circuit) {
  if (auto fault = device_fault(file)) return fault;
  const auto& z = file.device.displacements;
  const auto [low, high] = std::minmax_element(z.begin(), z.end());
  if (auto fault = start_fault(file, *low, *high, choice)) return fault;
  if (auto fault = sensor_fault(file, "on-by", choice.on_by)) return fault;
  if (auto fault = sensor_fault(file, "off-by", choice.off_by)) return fault;
  if (auto fault = row_fault(file, choice)) return fault;
  return table_fault(file, circuit);
}

void refuse_stroke(const DeviceFile& file, const StrokeChoice& choice, const std::string& circuit) {
  refuse_without_motion(file, "a stroke");
  if (const auto fault = stroke_fault(file, choice, circuit)) refuse_stroke_for(file, *fault);
}

}  // namespace coilpull
