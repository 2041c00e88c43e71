// SPDX-License-Identifier: GPL-3.0-or-later
#include "apps/commands/field.hpp"

#include <algorithm>
#include <charconv>
#include <cmath>
#include <iostream>

#include "apps/commands/results_folder.hpp"
#include "apps/commands/solve.hpp"
#include "apps/commands/write_cells.hpp"
#include "apps/commands/write_table.hpp"
#include "apps/device_file/read_device_file.hpp"
#include "apps/output/point_text.hpp"
#include "apps/output/safe_file.hpp"
#include "apps/output/sensitivity_text.hpp"
#include "apps/output/vtu_file.hpp"

namespace coilpull {
namespace {

[[noreturn]] void refuse_current(const std::string& given, const std::string& fact, const Device& device) {
  std::string allowed;
  for (const std::string& circuit : device.circuits) allowed += (allowed.empty() ? "" : ", ") + circuit;
  throw BadDevice("--current " + given + ": " + fact + "\n  " +
                  (allowed.empty() ? "This device has no circuit."
                                   : "Circuits of this device: " + allowed + "; for example --current " +
                                         device.circuits.front() + "=1.5 for 1.5 A."));
}

/// Sets one current from "drive=4".
void set_current(const std::string& given, const Device& device, std::vector<double>& currents_A) {
  const std::size_t sign = given.find('=');
  if (sign == std::string::npos) refuse_current(given, "no circuit=ampere.", device);
  const auto circuit = std::find(device.circuits.begin(), device.circuits.end(), given.substr(0, sign));
  if (circuit == device.circuits.end()) refuse_current(given, "no such circuit.", device);

  const char* first = given.data() + sign + 1;
  const char* last = given.data() + given.size();
  if (first != last && *first == '+') ++first;
  double current_A = 0;
  const auto read = std::from_chars(first, last, current_A);
  if (read.ec != std::errc() || read.ptr != last || !(std::abs(current_A) <= 1e15))
    refuse_current(given, "no number of ampere, up to 1e15, after the equals sign.", device);
  currents_A[static_cast<std::size_t>(circuit - device.circuits.begin())] = current_A;
}

/// Picture and cells of the table's only row; without VTK a word on why there are no cells.
std::string write_point(const std::filesystem::path& folder, const Device& device, const ForceTable& table,
                        Halves halves, Paths written) {
  const Measurement& row = table.rows.front();
  Mesher mesher;
  const auto solved = solve_point(device, row.displacement, row.currents_A, table.order, mesher);
  if (!solved) return written_text(written);
  const Paths drawn = draw_field_into(folder, "field", device, table, row, solved->field, halves);
  written.insert(written.end(), drawn.begin(), drawn.end());
  try {
    write_cells(folder, "field.vtu", device, *solved, row);
    written.push_back(folder / "field.vtu");
    return written_text(written);
  } catch (const NoVtu& missing) {
    return written_text(written) + "No field.vtu: " + missing.what() + "\n";
  }
}

/// Prints what moves the force; the path of its file when one was wanted.
Paths tell_sensitivities(const std::filesystem::path& folder, const Device& device, const ForceTable& table) {
  const Measurement& row = table.rows.front();
  Mesher mesher;
  if (!std::isfinite(row.force_N.value)) return {};
  const auto list = solve_sensitivities(device, row.displacement, row.currents_A, table.order, mesher);
  if (!list) {
    std::cout << "\nNo sensitivities: this point could not be solved.\n";
    return {};
  }
  std::cout << "\n" << sensitivity_text(*list, table.order - 1) << std::flush;
  if (folder.empty()) return {};
  write_safely(folder / "sensitivities.csv", sensitivity_csv(*list));
  return {folder / "sensitivities.csv"};
}

}  // namespace

Device at_one_point(Device device, const PointOptions& options) {
  std::vector<double> currents_A(device.circuits.size(), 0.0);
  if (device.currents_A.size() == 1) currents_A = device.currents_A.front();
  for (const std::string& given : options.currents) set_current(given, device, currents_A);
  device.currents_A = {currents_A};

  if (options.displacement_mm)
    device.displacements = {*options.displacement_mm * 1e-3};
  else
    device.displacements.resize(1);
  return device;
}

ExitCode run_field(const PointOptions& options) {
  DeviceFile file = open_device_file(options.device_file);
  file.device = at_one_point(std::move(file.device), options);
  std::filesystem::path folder;
  if (options.files) folder = results_folder(options.device_file, options.folder);
  const ForceTable table = solve(file, {1, true, true}, ProgressStyle::silent);
  std::cout << file.device.title << "\n\n" << point_text(table) << std::flush;
  const ExitCode code = exit_code_for(table);
  Paths numbers;
  if (options.sensitivities && code != exit_stopped) numbers = tell_sensitivities(folder, file.device, table);
  if (options.files && code != exit_stopped) {
    const Paths row = write_table(folder, "field.csv", table, file, options.command);
    numbers.insert(numbers.begin(), row.begin(), row.end());
    std::cout << "\n" << write_point(folder, file.device, table, options.halves, numbers);
  }
  return code;
}

}  // namespace coilpull
