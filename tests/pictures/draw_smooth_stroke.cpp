// SPDX-License-Identifier: GPL-3.0-or-later
// Draws how smooth the force is along the stroke: 51 displacements a fiftieth of the demo's step apart, each
// on a mesh of its own, and the second difference of the force, in which a jump from mesh to mesh stands out.
// Run:    draw_smooth_stroke FOLDER        writes smooth_stroke_force and smooth_stroke_second_difference
// Prints: the largest second difference, and over the error bar of its row
#include <algorithm>
#include <cmath>
#include <cstdio>
#include <filesystem>

#include "apps/device_file/read_device_file.hpp"
#include "apps/output/curves_picture.hpp"
#include "apps/output/number_text.hpp"
#include "apps/output/picture_files.hpp"
#include "solver/sweep/sweep.hpp"

using namespace coilpull;

namespace {

constexpr double centre = 36e-3, step = 1e-3 / 50;  // where the demo pulls hardest; its own step is 1 mm
constexpr int half = 25;                            // steps to either side

ForceTable sub_sweep() {
  Device device =
      read_device_file(std::filesystem::path(COILPULL_SOURCE_DIR) / "data/devices/01_tube_pusher.toml");
  device.displacements.clear();
  for (int i = -half; i <= half; ++i) device.displacements.push_back(centre + i * step);
  device.currents_A = {{-6}};
  SweepOptions options;
  options.audit = false;
  return sweep(device, options);
}

CurvesPicture picture_of(const std::string& title, const std::string& below, const std::string& y_words) {
  CurvesPicture picture;
  picture.title = title;
  picture.below = below;
  picture.x_words = "displacement in mm";
  picture.y_words = y_words;
  return picture;
}

}  // namespace

int main(int argc, char** argv) {
  const std::filesystem::path folder = argc > 1 ? argv[1] : ".";
  const ForceTable table = sub_sweep();
  Curve force{"-6 A", on_order_scale(0), {}, {}, true};
  Curve change{"second difference", on_order_scale(0), {}, {}, true};
  Curve bar{"error bar", on_order_scale(0.8), {}, {}, false};
  double largest = 0, most_bars = 0;
  for (std::size_t i = 0; i < table.rows.size(); ++i) {
    const Measurement& row = table.rows[i];
    const double z_mm = in_mm(row.displacement);
    force.points.push_back({z_mm, row.force_N.value, row.force_N.error});
    bar.points.push_back({z_mm, 0, 1e3 * row.force_N.error});
    if (i == 0 || i + 1 == table.rows.size()) continue;
    const double second =
        table.rows[i - 1].force_N.value - 2 * row.force_N.value + table.rows[i + 1].force_N.value;
    largest = std::max(largest, std::abs(second));
    most_bars = std::max(most_bars, std::abs(second) / row.force_N.error);
    change.points.push_back({z_mm, 1e3 * second});
  }
  CurvesPicture first = picture_of("Force, a mesh a point", "51 displacements 0.02 mm apart", "force in N");
  first.curves = {force};
  CurvesPicture second = picture_of("Second difference of the force, a mesh a point",
                                    "F(z - h) - 2 F(z) + F(z + h), h = 0.02 mm; the band is the error bar",
                                    "second difference in mN");
  second.curves = {bar, change};
  std::filesystem::create_directories(folder);
  write_picture(draw(first), folder, "smooth_stroke_force", first.title);
  write_picture(draw(second), folder, "smooth_stroke_second_difference", second.title);
  std::printf("second difference at most %.2g N, at most %.2f bars of its row; %d to %d triangles\n", largest,
              most_bars, table.triangles_least, table.triangles_most);
  return most_bars < 1 ? 0 : 1;
}
