// SPDX-License-Identifier: GPL-3.0-or-later
#include <cmath>
#include <stdexcept>
#include <string>

#include "apps/device_file/read_device_file.hpp"
#include "apps/output/number_text.hpp"
#include "apps/validation/families.hpp"
#include "solver/sweep/sweep.hpp"

namespace coilpull {
namespace {

/// Row of the table of forces at this point, which the figures must have in common with the device file.
const Measurement& row_at(const Device& device, const ForceTable& table, double displacement_mm,
                          double current_A) {
  for (std::size_t d = 0; d < device.displacements.size(); ++d)
    for (std::size_t c = 0; c < device.currents_A.size(); ++c)
      if (std::abs(1e3 * device.displacements[d] - displacement_mm) < 1e-9 &&
          device.currents_A[c][0] == current_A)
        return table.rows.at(d * device.currents_A.size() + c);
  throw std::runtime_error("corner_devices.csv has a point that is not in the file of \"" + device.title +
                           "\"");
}

}  // namespace

void check_corner_device(Record& record, const std::string& name) {
  const CsvFile table = read_published("corner_devices.csv");
  const Device device = read_device_file(published_path(name + ".toml"));
  const Source* source =
      record.source(device.title.substr(0, device.title.find(" (")),  // without "(invented, ...)"
                    "Independent finite elements by the scalar potential (general-purpose library, degree 4, "
                    "all outside mapped into a ring), with that computation's error estimates: " +
                        device.title,
                    "corner_devices.csv");
  SweepOptions options;
  options.threads = 1;
  options.audit = false;  // judged by the reference instead
  const ForceTable ours = sweep(device, options);
  for (std::size_t i = 0; i < table.records.size(); ++i) {
    if (table.text_at(i, "device") != name) continue;
    const double displacement_mm = table.number_at(i, "displacement_mm"),
                 current_A = table.number_at(i, "current_A");
    const Measurement& row = row_at(device, ours, displacement_mm, current_A);
    const std::string words = "at " + shortest(displacement_mm) + " mm, " + shortest(current_A) + " A: ";
    record.by_finite_elements(
        {source, words + "force", "N", table.text_at(i, "force_N"), table.number_at(i, "force_error_N")},
        row.force_N);
    record.by_finite_elements({source, words + "flux linkage", "Wb", table.text_at(i, "linkage_Wb"),
                               table.number_at(i, "linkage_error_Wb")},
                              row.linkage_Wb[0]);
  }
}

void check_corner_devices(Record& record) {
  for (const char* name : {"corner_rod_and_disc", "corner_sleeve_and_magnet", "corner_pot_and_cone"})
    check_corner_device(record, name);
}

}  // namespace coilpull
