// SPDX-License-Identifier: GPL-3.0-or-later
// Axial force between two equal coils of square section, by the installed library and mesher; no file of the
// source tree is in reach.
#include <cmath>
#include <coilpull/meshing/mesh_section.hpp>
#include <coilpull/solver/device/section_at.hpp>
#include <coilpull/solver/sweep/sweep.hpp>
#include <cstdio>

/// Arrays that the library allocated, with whatever instructions it was built for: copied, lengthened and
/// freed here.
bool takes_over_arrays(const coilpull::Device& device, const coilpull::MesherOptions& mesher) {
  coilpull::Mesh mesh = coilpull::Mesher(mesher).mesh(section_at(device, 0.0));
  const Eigen::Matrix2Xd nodes = mesh.nodes;
  mesh.nodes.conservativeResize(2, 2 * nodes.cols());
  mesh.nodes.rightCols(nodes.cols()) = nodes;
  return nodes.cols() > 0 && mesh.nodes.leftCols(nodes.cols()) == nodes;
}

int main() {
  using namespace coilpull;
  Device device;
  device.title = "two coils";
  device.coils = {{"fixed", rectangle(0.010, 0.012, -0.001, 0.001), 100, "one"},
                  {"moving", rectangle(0.010, 0.012, 0.009, 0.011), 100, "two"}};
  device.moving = {"moving"};
  device.displacements = {0};
  device.circuits = {"one", "two"};
  device.currents_A = {{2, 2}};

  SweepOptions options;
  options.mesher.program = MESHER;
  const Measurement row = sweep(device, options).rows.at(0);
  std::printf("force on the moving coil: %.6f +- %.1g N, %s\n", row.force_N.value, row.force_N.error,
              word_for(row.status));

  // I1 I2 dM/dz of two thin rings (Maxwell, Treatise, 3rd ed., art. 701), averaged over both sections by 6
  // Gauss points in each of the four directions; 5 points give the same 10 digits.
  const double expected_N = -0.0340758618;
  const bool agrees = std::fabs(row.force_N.value - expected_N) < row.force_N.error;
  const bool bar_is_narrow = row.force_N.error <= device.tolerance * std::fabs(expected_N);
  return row.status == RowStatus::ok && agrees && bar_is_narrow && takes_over_arrays(device, options.mesher)
             ? 0
             : 1;
}
