// SPDX-License-Identifier: GPL-3.0-or-later
// Figures: data/published/axial_forces.csv, cases G and H: over a half-space of constant permeability a
// magnet or a ring meets its mirror image, (mu_r - 1)/(mu_r + 1) times as strong. The half-space becomes a
// disc of 40 radii of the source: a field that falls like 1/d^3 misses 40^-3 = 2e-5 of the image, and little
// of that pulls on the source. Rows of infinite permeability are left out: a B-H law has none.
#include <algorithm>
#include <cmath>
#include <cstdlib>

#include "apps/validation/fe_path.hpp"
#include "materials/constants.hpp"
#include "tests/near.hpp"
#include "tests/published/rings.hpp"
#include "tests/read_csv.hpp"

using namespace coilpull;

namespace {

/// The gap is a thousandth of the mesh: it has to be resolved none the less.
Resolution down_to_the_gap() {
  Resolution resolution;
  resolution.fineness = 1.5;
  resolution.least = 1e-4;
  return resolution;
}

double after_equals(const std::string& words, const std::string& key) {
  return std::atof(words.c_str() + words.find(key) + key.size());
}

Core half_space(double source_radius, double mu_r) {
  const double far = 40 * source_radius;
  return {"iron", rectangle(0, far, -far, 0), LinearLaw{mu_r}, "test"};
}

}  // namespace

TEST_CASE("a magnet over iron is pulled by its image") {
  const CsvFile table = read_csv("data/published/axial_forces.csv");
  FePath path(4, down_to_the_gap());
  const double radius = 10e-3;
  double peak = 0;
  int checked = 0;
  for (std::size_t i = 0; i < table.records.size(); ++i) {
    const std::string& words = table.text_at(i, "description");
    if (table.text_at(i, "case") != "G-halfspace" || words.find("mu_r=inf") != std::string::npos) continue;
    const double mu_r = after_equals(words, "half-space mu_r=");
    const double gap = 1e-3 * after_equals(table.text_at(i, "position"), "gap_mm=");
    Device device = in_air({}, {magnet_of("magnet", {0, radius, gap, gap + 10e-3}, 1.0)});
    device.cores = {half_space(radius, mu_r)};
    device.moving = {"magnet"};
    const auto solved = path.solve(device, 0, {{}});
    peak = std::max(peak, std::fabs(table.number_at(i, "F_N")));
    INFO("mu_r = " << mu_r << ", " << table.text_at(i, "position") << ", exact " << table.number_at(i, "F_N")
                   << ", found " << solved[0].force_N);
    CHECK(std::fabs(solved[0].force_N - table.number_at(i, "F_N")) <
          3e-5 * peak);  // the first gap is the peak
    ++checked;
  }
  CHECK(checked == 8);
}

TEST_CASE("a ring of current over iron is pulled by its image") {
  const CsvFile table = read_csv("data/published/axial_forces.csv");
  FePath path(4, down_to_the_gap());
  const double radius = 20e-3, half = 0.5e-3, amperes = 1000;
  double peak = 0;
  int checked = 0;
  for (std::size_t i = 0; i < table.records.size(); ++i) {
    if (table.text_at(i, "case") != "H-loop-halfspace") continue;
    const double mu_r = after_equals(table.text_at(i, "description"), "half-space mu_r=");
    const double height = 1e-3 * after_equals(table.text_at(i, "position"), "height_mm=");
    const double square = amperes * amperes * (mu_r - 1) / (mu_r + 1);
    INFO("mu_r = " << mu_r << ", " << table.text_at(i, "position"));
    CHECK(square * ring_inductance_slope(radius, radius, 2 * height) ==
          near(table.number_at(i, "F_N"), 1e-10));

    // The ring becomes a winding of 1 mm square, and so does its image.
    const Box ring{radius - half, radius + half, height - half, height + half};
    const Box image{radius - half, radius + half, -height - half, -height + half};
    const double exact = square * mean_over_sections(ring_inductance_slope, image, ring, 6);
    Device device = in_air({coil_of("ring", ring, 1)});
    device.cores = {half_space(radius, mu_r)};
    device.moving = {"ring"};
    const auto solved = path.solve(device, 0, {{amperes}});
    peak = std::max(peak, std::fabs(exact));
    INFO("exact " << exact << ", found " << solved[0].force_N);
    CHECK(std::fabs(solved[0].force_N - exact) < 3e-5 * peak);
    ++checked;
  }
  CHECK(checked == 6);
}
