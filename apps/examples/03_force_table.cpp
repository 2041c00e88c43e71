// SPDX-License-Identifier: GPL-3.0-or-later
// A whole table with saturating steel: an iron plunger is drawn into a coil in a steel tube.
// Builds on: 02_core_in_coil
// Run:       build/apps/examples/example_03_force_table
// Prints:    force with its bar against displacement for three currents; the work done over the stroke
// Checked:   every row is ok; at each current the work, by Simpson's rule, is the coenergy gained
#include <cmath>
#include <cstdio>

#include "solver/sweep/sweep.hpp"

namespace {

using namespace coilpull;

Device solenoid() {
  const FroehlichLaw steel{2.1, 500};  // saturation polarization [T], half field [A/m]
  Device device;
  device.title = "solenoid with an iron plunger";
  device.cores = {{"tube", rectangle(0.011, 0.013, -0.015, 0.015), steel, "froehlich"},
                  {"plunger", rectangle(0, 0.002, -0.010, 0.010), steel, "froehlich"}};
  device.coils = {{"drive", rectangle(0.003, 0.0105, -0.014, 0.014), 600, "drive"}};
  device.moving = {"plunger"};
  for (int i = 0; i <= 8; ++i) device.displacements.push_back(0.004 + 0.001 * i);
  device.circuits = {"drive"};
  device.currents_A = {{1}, {4}, {8}};
  return device;
}

/// int F dx over rows first, first + step, ... of one current [J]; an even number of equal intervals.
double work_J(const ForceTable& table, const Device& device, std::size_t current, std::size_t step) {
  double sum = 0;
  const std::size_t last = device.displacements.size() - 1;
  for (std::size_t i = 0; i <= last; i += step) {
    const double weight = i == 0 || i == last ? 1 : (i / step) % 2 == 1 ? 4 : 2;
    sum += weight * table.rows.at(i * table.currents_per_displacement + current).force_N.value;
  }
  return sum * static_cast<double>(step) * (device.displacements[1] - device.displacements[0]) / 3;
}

}  // namespace

int main() {
  const Device device = solenoid();
  const ForceTable table = sweep(device);

  bool good = true;
  for (const Measurement& row : table.rows) {
    std::printf("%6.1f mm  %4.1f A  %10.6f +- %.6f N  %s\n", 1e3 * row.displacement, row.currents_A[0],
                row.force_N.value, row.force_N.error, word_for(row.status));
    good = good && row.status == RowStatus::ok;
  }
  for (std::size_t current = 0; current < table.currents_per_displacement; ++current) {
    const double first_J = table.rows.at(current).coenergy_J;
    const double gained_J =
        table.rows.at(table.rows.size() - table.currents_per_displacement + current).coenergy_J - first_J;
    const double fine_J = work_J(table, device, current, 1), coarse_J = work_J(table, device, current, 2);
    std::printf("%.1f A: work %.9f J, coenergy gained %.9f J\n", device.currents_A[current][0], fine_J,
                gained_J);
    // Simpson's rule on 8 intervals errs by less than it differs from 4; each force by less than its bar.
    const double stroke = device.displacements.back() - device.displacements.front();
    const double allowed =
        std::fabs(fine_J - coarse_J) + table.tolerance_reached * table.peak_force_N * stroke;
    good = good && std::fabs(fine_J - gained_J) < allowed;
  }
  return good ? 0 : 1;
}
