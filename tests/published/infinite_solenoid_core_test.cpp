// SPDX-License-Identifier: GPL-3.0-or-later
// Figures: data/published/infinite_solenoid_core.csv (exact, ten digits printed): a core of radius 6 mm in an
// infinite solenoid of radius 10 mm, H = n I inside, as one slice of it: apps/validation/solenoid_slice.hpp.
#include "apps/validation/solenoid_slice.hpp"
#include "materials/catalogue.hpp"
#include "materials/constants.hpp"
#include "tests/materials/every_law.hpp"
#include "tests/near.hpp"
#include "tests/read_csv.hpp"

using namespace coilpull;

namespace {

constexpr double core_area = pi * SolenoidSlice::core_radius * SolenoidSlice::core_radius;
constexpr double bore_area = pi * SolenoidSlice::sheet_radius * SolenoidSlice::sheet_radius - core_area;

}  // namespace

TEST_CASE("a slice of an infinite solenoid with a linear core holds n I, up to a permeability of 5000") {
  // The closed circuit leaves no field outside the core but n I, so that its error grows with the
  // permeability: 8 layers a region at order 4 leave a few 1e-10 at 5000 and rounding at 200.
  for (const double mu_r : {1.0, 5.0, 50.0, 200.0, 5000.0}) {
    const double tolerance = mu_r > 200 ? 1e-8 : 1e-9, n_i = 1000, b = mu0 * mu_r * n_i;
    INFO("mu_r " << mu_r);
    const SolenoidSlice found = solve_slice(LinearLaw(mu_r), n_i);
    CHECK(found.sheet_flux_Wb == near(b * core_area + mu0 * n_i * bore_area, tolerance));
    CHECK(found.core_coenergy_density == near(0.5 * b * n_i, tolerance));
    CHECK(found.core_b_T == near(b, tolerance));
  }
}

TEST_CASE("a slice of an infinite solenoid with a saturating core gives B, flux and coenergy as printed") {
  const CsvFile table = read_csv("data/published/infinite_solenoid_core.csv");
  int rows_checked = 0;
  for (const ListedLaw& entry : laws_of_published_cases())
    for (std::size_t i = 0; i < table.records.size(); ++i) {
      if (table.text_at(i, "law") != entry.name) continue;
      const double n_i = table.number_at(i, "nI_A_per_m");
      INFO(entry.name << " at n I = " << n_i << " A/m");
      const SolenoidSlice found = solve_slice(entry.law, n_i);
      CHECK(found.sheet_flux_Wb == near(table.number_at(i, "flux_Wb"), 1e-9));
      CHECK(found.core_coenergy_density == near(table.number_at(i, "coenergy_density_core_J_per_m3"), 1e-9));
      CHECK(found.core_b_T == near(table.number_at(i, "B_core_T"), 2e-9));  // a point, not a mean
      ++rows_checked;
    }
  CHECK(rows_checked == 18);
}

TEST_CASE(
    "a slice with a core of TEAM 13 steel holds n I, and its flux is that of the table within the joining") {
  // The published rows join the points of the table by straight lines; ours is a smooth cubic: what is left
  // is the difference between the two. That H of our curve at our B is n I is sharp.
  const CsvFile table = read_csv("data/published/infinite_solenoid_core.csv");
  const SoftLaw law = standard_catalogue().steel("team 13 steel").law;
  int rows_checked = 0;
  for (std::size_t i = 0; i < table.records.size(); ++i) {
    if (table.text_at(i, "law").rfind("TEAM13", 0) != 0) continue;
    const double n_i = table.number_at(i, "nI_A_per_m");
    const SolenoidSlice found = solve_slice(law, n_i);
    const double flux = table.number_at(i, "flux_Wb"),
                 coenergy = table.number_at(i, "coenergy_density_core_J_per_m3");
    MESSAGE("n I = " << n_i << " A/m: cubic minus lines, relative: flux " << found.sheet_flux_Wb / flux - 1
                     << ", coenergy " << found.core_coenergy_density / coenergy - 1);
    CHECK(evaluate(law, found.core_b_T).h == near(n_i, 2e-7));  // 1e-9 of B in a full steel is 4e-8 of H
    CHECK(found.sheet_flux_Wb == near(flux, 5e-3));
    CHECK(found.core_coenergy_density == near(coenergy, 5e-3));
    ++rows_checked;
  }
  CHECK(rows_checked == 6);
}
