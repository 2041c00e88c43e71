// SPDX-License-Identifier: GPL-3.0-or-later
#include "apps/commands/wires.hpp"

#include <algorithm>
#include <iostream>

#include "apps/commands/results_folder.hpp"
#include "apps/commands/write_manifest.hpp"
#include "apps/device_file/read_device_file.hpp"
#include "apps/output/safe_file.hpp"
#include "apps/output/winding_text.hpp"

namespace coilpull {
namespace {

[[noreturn]] void refuse_coil(const WiresOptions& options, const std::string& fact, const Device& device) {
  std::string names;
  for (const Coil& coil : device.coils) names += (names.empty() ? "" : ", ") + coil.name;
  throw BadDevice(options.device_file.string() + ": " + fact +
                  "\n  Coils of this device: " + (names.empty() ? "none" : names) + "; choose by --coil.");
}

const Coil& chosen_coil(const WiresOptions& options, const Device& device) {
  if (options.coil.empty() && device.coils.size() != 1)
    refuse_coil(options, "there is not just one coil.", device);
  for (const Coil& coil : device.coils) {
    if (!options.coil.empty() && coil.name != options.coil) continue;
    if (std::count_if(device.coils.begin(), device.coils.end(),
                      [&](const Coil& other) { return other.circuit == coil.circuit; }) > 1)
      refuse_coil(options,
                  "circuit " + coil.circuit + " has more coils than " + coil.name +
                      ": their wires cannot be chosen one by one.",
                  device);
    const Box box = bounding_box(coil.outline);
    if (area(coil.outline) < (1 - 1e-9) * (box.r_to - box.r_from) * (box.z_to - box.z_from))
      refuse_coil(options, "coil " + coil.name + " is no rectangle: its turns cannot be counted.", device);
    return coil;
  }
  refuse_coil(options, "there is no coil " + options.coil + ".", device);
}

}  // namespace

ExitCode run_wires(const WiresOptions& options) {
  const DeviceFile file = open_device_file(options.device_file);
  const Coil& coil = chosen_coil(options, file.device);
  const std::filesystem::path folder = results_folder(options.device_file, options.folder);
  const std::filesystem::path table =
      options.table_file.empty() ? folder / "force_table.csv" : options.table_file;
  if (!std::filesystem::exists(table))
    throw BadDevice(table.string() + ": there is no such table.\n  Solve it first: coilpull table " +
                    options.device_file.string() + ", or name one by --table.");
  WireChoice choice{options.supply_V, options.source_ohm, 1e-3 * options.pulse_ms};
  choice.metal = !options.metal.empty() ? metal_called(options.metal)
                 : coil.wire            ? coil.wire->metal
                                        : Metal::copper;
  choice.grade = insulation_grade(options.insulation);
  choice.by_gauge = options.by_gauge;
  const ForceGrid grid(read_force_table(read_csv_file(table)));
  const auto rows = wire_rows(coil, grid, choice);
  std::cout << wire_choice_text(coil, choice, rows) << std::flush;
  std::vector<std::filesystem::path> written = {folder / "wires.csv"};
  write_safely(written.front(), wire_choice_csv(rows));
  write_manifest(folder, "wires.csv",
                 {options.command, {origin_of(file)}, {input_file(table.string(), grid.table().sha256)}},
                 written);
  std::cout << "\n" << written_text(written);
  return exit_good;
}

}  // namespace coilpull
