// SPDX-License-Identifier: GPL-3.0-or-later
// Figures: data/published/demag_cylinder_vs_chi.csv: demagnetising factors of cylinders, definitions of Chen,
// Brug and Goldfarb, IEEE Trans. Magn. 27 (1991) 3601: H0/<M> = N + 1/chi with the mean of M over the volume
// (Nm) or over the middle plane (Nf). Values by a boundary integral method, good to 1e-6. Susceptibilities of
// -1 and infinity are left out: no B-H law has them.
#include <cmath>

#include "apps/validation/balls.hpp"
#include "apps/validation/fe_path.hpp"
#include "apps/validation/mean_flux_density.hpp"
#include "materials/constants.hpp"
#include "tests/near.hpp"
#include "tests/read_csv.hpp"

using namespace coilpull;

namespace {

constexpr double radius = 0.010, h0 = 1000;  // [m], [A/m]

struct Factors {
  double volume, plane;  ///< H0 / <M>
};

Factors factors(FePath& path, double length_over_diameter, double chi) {
  const double half = radius * length_over_diameter;
  const auto solved =
      path.solve(core_in_field(rectangle(0, radius, -half, half), LinearLaw{1 + chi}, h0, half), 0, {{}});
  const double m_per_b = chi / (mu0 * (1 + chi));
  const double plane_b = 2 * solved[0].a_phi({radius, 0}) / radius;  // flux over area
  return {h0 / (m_per_b * mean_b_z(*solved[0].field, 0)), h0 / (m_per_b * plane_b)};
}

void check_rows(FePath& path, double tolerance, bool (*wanted)(double shape, double chi)) {
  const CsvFile table = read_csv("data/published/demag_cylinder_vs_chi.csv");
  int checked = 0;
  for (std::size_t i = 0; i < table.records.size(); ++i) {
    if (table.text_at(i, "chi") == "inf" || table.text_at(i, "chi") == "-1") continue;
    const double shape = table.number_at(i, "gamma"), chi = table.number_at(i, "chi");
    if (!wanted(shape, chi)) continue;
    const Factors found = factors(path, shape, chi);
    INFO("length over diameter " << shape << ", susceptibility " << chi);
    CHECK(found.volume == near(table.number_at(i, "Nm") + 1 / chi, tolerance));
    CHECK(found.plane == near(table.number_at(i, "Nf") + 1 / chi, tolerance));
    ++checked;
  }
  CHECK(checked >= 4);
}

}  // namespace

TEST_CASE("cylinders demagnetise themselves as published, to 5e-4 on the mesh that comes by itself") {
  // Edges of steel: the field has no bounded slope there, and only grading keeps the order.
  FePath path(4);
  check_rows(path, 5e-4, [](double shape, double) { return shape <= 10; });
}

TEST_CASE("cylinders demagnetise themselves as published, to 1e-5 on a finer mesh") {
  Resolution fine;
  fine.fineness = 2;
  fine.at_corner = 0.01;
  FePath path(5, fine);
  check_rows(path, 1e-5, [](double shape, double chi) {
    return (shape == 0.2 || shape == 1 || shape == 4) && chi > 1 && chi < 2000;
  });
}
