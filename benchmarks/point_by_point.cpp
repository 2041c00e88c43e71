// SPDX-License-Identifier: GPL-3.0-or-later
// What does a table spare against its points solved one by one, each meshed by itself, started from zero, at
// both orders? The same library, the same meshes: of rod_and_disc.toml every displacement that has a mesh of
// its own, with three currents. Forces are held against the table's before times are told. One thread.
#include <algorithm>
#include <chrono>
#include <cmath>
#include <cstdio>

#include "apps/device_file/read_device_file.hpp"
#include "solver/device/section_at.hpp"
#include "solver/refine/order_pair.hpp"
#include "solver/sweep/sweep.hpp"

using namespace coilpull;

namespace {

template <class Work>
double seconds(const Work& work) {
  const auto start = std::chrono::steady_clock::now();
  work();
  return std::chrono::duration<double>(std::chrono::steady_clock::now() - start).count();
}

}  // namespace

int main(int count, char** words) {
  const Device device =
      open_device_file(count > 1 ? words[1] : COILPULL_SOURCE_DIR "/benchmarks/rod_and_disc.toml").device;
  SweepOptions options;
  options.threads = 1;
  options.audit = false;
  ForceTable table;
  const double whole = seconds([&] { table = sweep(device, options); });

  Mesher mesher;
  mesher.start();
  const std::size_t sets = device.currents_A.size();
  double alone = 0, most_apart = 0;
  int points = 0;
  for (std::size_t i = 0; i < device.displacements.size(); ++i) {
    if (table.meshes[i].made_at != device.displacements[i]) continue;
    for (const std::size_t set : {std::size_t(0), sets / 3, sets - 1}) {
      const Eigen::VectorXd currents = Eigen::Map<const Eigen::VectorXd>(
          device.currents_A[set].data(), static_cast<Eigen::Index>(device.currents_A[set].size()));
      double force_N = 0;
      alone += seconds([&] {
        const Resolution& resolution = *table.meshes[i].resolution;
        const auto mesh = std::make_shared<const Mesh>(
            mesher.mesh(section_at(device, device.displacements[i], resolution)));
        PairSolver solver(mesh, device, table.order - 1, resolution.outer_ratio);
        force_N = solver.solve(currents).force_high_N;
      });
      most_apart = std::max(most_apart, std::abs(force_N - table.rows[i * sets + set].force_N.value));
      ++points;
    }
  }
  if (!(most_apart < 1e-8 * table.peak_force_N)) {  // Newton's method from another start
    std::printf("forces differ by %.1e of the peak: no times are told\n", most_apart / table.peak_force_N);
    return 1;
  }
  const double each = alone / points, in_table = whole / static_cast<double>(table.rows.size());
  std::printf("one by one %.1f ms a point (%d points), in the table %.2f ms, with its bars: %.1f times\n",
              1e3 * each, points, 1e3 * in_table, each / in_table);
}
