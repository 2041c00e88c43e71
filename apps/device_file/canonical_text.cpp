// SPDX-License-Identifier: GPL-3.0-or-later
#include "apps/device_file/canonical_text.hpp"

#include <algorithm>

#include "apps/device_file/exact_text.hpp"
#include "apps/device_file/read_current.hpp"
#include "materials/wire.hpp"

namespace coilpull {

namespace {

std::string line(const std::string& key, const std::string& value) { return key + " = " + value + "\n"; }

std::string header(const std::string& kind, const std::string& name) {
  return "\n[" + kind + (name.empty() ? "" : "." + name) + "]\n";
}

std::string core_text(const Core& core, const PartWords& words) {
  return header("core", core.name) + line("material", words.material) +
         line("stacking_factor", toml_number(words.stacking_factor)) + canonical_shape(core.outline) + "\n";
}

/// The file names the insulation, the device only knows its thickness.
std::string insulation_of(const RoundWire& wire) {
  if (wire.overall_diameter == wire.bare_diameter) return "bare";
  const bool is_grade_1 = wire_size(wire.bare_diameter, Grade::grade_1).overall_m == wire.overall_diameter;
  return is_grade_1 ? "grade 1" : "grade 2";
}

std::string coil_text(const Coil& coil) {
  std::string words = header("coil", coil.name) +
                      canonical_shape(coil.bobbin ? coil.bobbin->space : coil.outline) + "\n" +
                      line("turns", toml_number(coil.turns)) + line("circuit", toml_text(coil.circuit)) +
                      line("sense", coil.sense < 0 ? "\"-\"" : "\"+\"");
  if (coil.wire)
    words += "wire = { " + toml_length("diameter", coil.wire->bare_diameter) +
             ", insulation = " + toml_text(insulation_of(*coil.wire)) +
             ", metal = " + toml_text(word_for(coil.wire->metal)) + " }\n";
  if (coil.bobbin)
    words += "bobbin = { " + toml_length("wall", coil.bobbin->wall) + ", " +
             toml_length("flange", coil.bobbin->flange) + ", " +
             toml_length("clearance", coil.bobbin->clearance) + ", " +
             toml_length("layer_film", coil.bobbin->layer_film) + " }\n";
  words += line("packing", coil.packing == Packing::rows ? "\"rows\"" : "\"nested\"") +
           line("temperature_degC", toml_number(coil.temperature_degC));
  return words;
}

std::string magnet_text(const Magnet& magnet, const PartWords& words) {
  return header("magnet", magnet.name) + line("material", words.material) +
         line("temperature_degC", toml_number(magnet.temperature_degC)) + canonical_shape(magnet.outline) +
         "\n" + line("magnetised", words.magnetised);
}

std::string motion_text(const Device& device) {
  if (device.moving.empty()) return "";
  std::string names;
  for (const std::string& name : device.moving) names += (names.empty() ? "" : ", ") + toml_text(name);
  return header("motion", "") + line("moving", "[" + names + "]") +
         toml_lengths("displacement", device.displacements) + "\n";
}

/// The currents of one circuit in the order in which they first occur.
std::vector<double> different(const std::vector<double>& currents) {
  std::vector<double> once;
  for (const double current : currents)
    if (std::find(once.begin(), once.end(), current) == once.end()) once.push_back(current);
  return once;
}

std::string current_text(const Device& device) {
  if (device.circuits.empty()) return "";
  std::vector<std::vector<double>> together(device.circuits.size());
  for (const std::vector<double>& set : device.currents_A)
    for (std::size_t i = 0; i < set.size(); ++i) together[i].push_back(set[i]);
  std::vector<std::vector<double>> across;
  across.reserve(together.size());
  for (const std::vector<double>& currents : together) across.push_back(different(currents));

  const bool is_crossed = crossed(across) == device.currents_A;
  std::string words = header("current", "") + line("together", is_crossed ? "false" : "true");
  for (std::size_t i = 0; i < device.circuits.size(); ++i)
    words += line(device.circuits[i] + "_A", toml_numbers(is_crossed ? across[i] : together[i]));
  return words;
}

std::string sensor_text(const Sensor& sensor, const DeviceFile& file) {
  std::string words = header("sensor", sensor.name) + toml_length("r", sensor.at.r) + "\n" +
                      toml_length("z", sensor.at.z) + "\n";
  if (sensor.face_radius > 0) words += toml_length("face_radius", sensor.face_radius) + "\n";
  if (sensor.moves) words += line("moves_with", toml_text(file.device.moving.front()));
  if (const auto switching = file.operation.sensors.find(sensor.name);
      switching != file.operation.sensors.end())
    words += canonical_switching(switching->second);
  return words;
}

double percent(double fraction) { return before_division(fraction, 100).value_or(100 * fraction); }

/// Only of a file that has it: it says nothing of the device itself.
std::string spread_text(const DeviceFile& file) {
  if (!file.states_spread) return "";
  const InputSpread& spread = file.spread;
  std::string words = header("spread", "") + toml_length("position", spread.position_m) + "\n" +
                      line("temperature_K", toml_number(spread.temperature_K));
  if (spread.remanence) words += line("remanence_percent", toml_number(percent(*spread.remanence)));
  return words + line("polarization_percent", toml_number(percent(spread.polarization)));
}

}  // namespace

std::string canonical_text(const DeviceFile& file) {
  const Device& device = file.device;
  std::string words =
      line("title", toml_text(device.title)) + line("tolerance", toml_number(device.tolerance));
  for (const Core& core : device.cores) words += core_text(core, file.words_of.at(core.name));
  for (const Coil& coil : device.coils) words += coil_text(coil);
  for (const Magnet& magnet : device.magnets) words += magnet_text(magnet, file.words_of.at(magnet.name));
  words += motion_text(device) + current_text(device);
  for (const Sensor& sensor : device.sensors) words += sensor_text(sensor, file);
  return words + header("background", "") + line("B_z_T", toml_number(device.background_bz_T)) +
         spread_text(file) + canonical_operation(file.operation);
}

}  // namespace coilpull
