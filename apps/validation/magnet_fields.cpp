// SPDX-License-Identifier: GPL-3.0-or-later
#include "apps/output/number_text.hpp"
#include "apps/validation/families.hpp"
#include "apps/validation/recompute.hpp"
#include "solver/closed_form/axial_magnet.hpp"

namespace coilpull {

void check_magnet_fields(Record& record) {
  const Source* source =
      record.source("cylinder magnet, field",
                    "B in and around an axially magnetised cylinder (radius 5 mm, length 10 mm, Br 1.3 T, "
                    "recoil permeability 1), "
                    "elliptic integrals of its current sheet and quadrature of current loops",
                    "magnet_field_points.csv");
  const CsvFile table = read_published("magnet_field_points.csv");
  const Box section{0, 0.005, -0.005, 0.005};
  const AxialMagnet magnet{section, 1.3};
  Device device = in_air({}, {magnet_of("magnet", section, 1.3)});
  std::vector<Point> points;
  for (std::size_t i = 0; i < table.records.size(); ++i) {
    points.push_back({table.number_at(i, "r_m"), table.number_at(i, "z_m")});
    device.sensors.push_back({"point " + std::to_string(i), points.back()});
  }
  const std::vector<Measured> found =
      BarredPath(3, {6.0}).values(device, 0, {{}}, [&](const std::vector<Solved>& solved) {
        std::vector<double> values;
        values.reserve(2 * points.size());
        for (const Point at : points) values.push_back(solved[0].b_z(at));
        for (const Point at : points)
          if (at.r > 0 && at.z != 0) values.push_back(solved[0].b_r(at));
        return values;
      });
  std::size_t next_radial = points.size();
  for (std::size_t i = 0; i < table.records.size(); ++i) {
    const std::string words =
        "r = " + shortest(in_mm(points[i].r)) + " mm, z = " + shortest(in_mm(points[i].z)) + " mm: ";
    const SourceField exact = flux_density(magnet, points[i]);
    const auto compare = [&](const char* component, const char* column, const Measured& ours,
                             double formula) {
      const Published published{source, words + component, "T", table.text_at(i, column)};
      record.by_finite_elements(published, ours);
      record.by_formula(published, formula, 1e-13);
    };
    compare("B_z", "B_z_T", found[i], exact.bz_T);
    if (points[i].r == 0 || points[i].z == 0) continue;  // there B_r is 0 by symmetry
    compare("B_r", "B_r_T", found[next_radial++], exact.br_T);
  }
}

}  // namespace coilpull
