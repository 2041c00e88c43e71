// SPDX-License-Identifier: GPL-3.0-or-later
// Draws what a bar promises and what it keeps: the demo's table at its strongest current, less the force on
// meshes whose corners are two hundred times finer, with the table's bars around the difference.
// Run:    draw_bars_and_truth FOLDER       writes bars_and_truth
// Prints: rows inside their bar, worst and median difference in bars
#include <algorithm>
#include <cmath>
#include <cstdio>
#include <filesystem>
#include <vector>

#include "apps/device_file/read_device_file.hpp"
#include "apps/output/curves_picture.hpp"
#include "apps/output/number_text.hpp"
#include "apps/output/picture_files.hpp"
#include "solver/refine/order_pair.hpp"
#include "solver/refine/resolution_for.hpp"
#include "solver/sweep/sweep.hpp"
#include "tests/physics/devices.hpp"

using namespace coilpull;

namespace {

/// Corner error falls like size^1.5: two hundred times finer corners leave 1/3000 of the error.
double true_force(const Device& device, double displacement) {
  Resolution resolution;
  resolution.at_corner /= 200;
  resolution.fineness = 2;
  PairSolver solver(mesh_of(device, displacement, resolution), device, 4, resolution.outer_ratio);
  return solver.solve(amperes(device.currents_A[0])).force_high_N;
}

}  // namespace

int main(int argc, char** argv) {
  const std::filesystem::path folder = argc > 1 ? argv[1] : ".";
  Device device =
      read_device_file(std::filesystem::path(COILPULL_SOURCE_DIR) / "data/devices/01_tube_pusher.toml");
  device.currents_A = {{-6}};
  SweepOptions options;
  options.audit = false;
  const ForceTable table = sweep(device, options);
  Curve difference{"table less truth", on_order_scale(0), {}, {}, true};
  Curve bar{"error bar", on_order_scale(0.8), {}, {}, false};
  std::vector<double> in_bars;
  for (const Measurement& row : table.rows) {
    const double off = row.force_N.value - true_force(device, row.displacement);
    difference.points.push_back({in_mm(row.displacement), 1e3 * off});
    bar.points.push_back({in_mm(row.displacement), 0, 1e3 * row.force_N.error});
    in_bars.push_back(std::abs(off) / row.force_N.error);
  }
  CurvesPicture picture;
  picture.title = "What the bar promises, and what it keeps";
  picture.below = "tube pusher at -6 A, largest force " + rounded(table.peak_force_N, 3) +
                  " N; truth: corners 200 times finer, order 5";
  picture.x_words = "displacement in mm";
  picture.y_words = "force in mN";
  picture.curves = {bar, difference};
  std::filesystem::create_directories(folder);
  write_picture(draw(picture), folder, "bars_and_truth", picture.title);
  std::sort(in_bars.begin(), in_bars.end());
  std::printf("%d of %zu rows inside their bar, worst %.2f bars, median %.2f bars\n",
              static_cast<int>(std::upper_bound(in_bars.begin(), in_bars.end(), 1.0) - in_bars.begin()),
              in_bars.size(), in_bars.back(), in_bars[in_bars.size() / 2]);
  return in_bars.back() <= 1 ? 0 : 1;
}
