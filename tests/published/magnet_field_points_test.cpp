// SPDX-License-Identifier: GPL-3.0-or-later
// Figures: data/published/magnet_field_points.csv (radius 5 mm, length 10 mm, Br 1.3 T, recoil permeability
// 1). No point of the table lies on an edge of the magnet, where B has no limit; the one on its face is on
// the axis, where the normal B is continuous.
#include <cmath>

#include "apps/validation/fe_path.hpp"
#include "tests/near.hpp"
#include "tests/read_csv.hpp"

using namespace coilpull;

TEST_CASE("inside and around a cylinder magnet B is that of its current sheet") {
  const CsvFile table = read_csv("data/published/magnet_field_points.csv");
  Device device = in_air({}, {magnet_of("magnet", {0, 0.005, -0.005, 0.005}, 1.3)});
  for (std::size_t i = 0; i < table.records.size(); ++i)
    device.sensors.push_back(
        {"point " + std::to_string(i), {table.number_at(i, "r_m"), table.number_at(i, "z_m")}});
  const Solved solved = FePath(3, {8.0}).solve(device, 0, {{}}).front();
  for (std::size_t i = 0; i < table.records.size(); ++i) {
    const Point at = {table.number_at(i, "r_m"), table.number_at(i, "z_m")};
    const double br = table.number_at(i, "B_r_T"), bz = table.number_at(i, "B_z_T");
    INFO("r = " << at.r << " m, z = " << at.z << " m");
    // Relative to |B|. Near an edge B grows like the logarithm of the distance, and what triangles of the
    // mesh miss there falls off slowly: three points lie 1 to 1.4 mm from it.
    const bool near_edge = std::hypot(at.r - 0.005, at.z - 0.005) < 0.0015;
    const double off = std::hypot(solved.b_r(at) - br, solved.b_z(at) - bz);
    CHECK(off < (near_edge ? 1e-3 : 1e-4) * std::hypot(br, bz));
  }
}
