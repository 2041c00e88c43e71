// SPDX-License-Identifier: GPL-3.0-or-later
// Figures: data/published/infinite_solenoid_core.csv (exact, ten digits printed): a core of radius 6 mm in an
// infinite solenoid of radius 10 mm, H = n I inside. One slice of it, cut by two planes z = const where the
// natural condition holds, on a mesh laid by hand. The flux in the file is that within the current sheet; our
// winding lies outside that radius and is 0.2 mm thick: B falls across it linearly, which adds to the mean
// flux and to the coenergy
//     2 pi mu0 nI g  and  pi mu0 (nI)^2 g per metre,   g = int_0^t (R + x)(1 - x/t)^2 dx = R t/3 + t^2/12.
#include <algorithm>
#include <cmath>

#include "materials/catalogue.hpp"
#include "materials/constants.hpp"
#include "solver/field/field_solver.hpp"
#include "tests/materials/every_law.hpp"
#include "tests/near.hpp"
#include "tests/read_csv.hpp"

using namespace coilpull;

namespace {

constexpr double core_radius = 0.006, sheet_radius = 0.010, thickness = 0.0002, height = 0.002;
constexpr double winding_gain = sheet_radius * thickness / 3 + thickness * thickness / 12;
constexpr double core_area = pi * core_radius * core_radius;
constexpr double bore_area = pi * sheet_radius * sheet_radius - core_area;

/// Core, air and winding, `layers` columns of two triangles in each.
std::shared_ptr<const Mesh> slice(int layers) {
  const double ends[] = {0, core_radius, sheet_radius, sheet_radius + thickness};
  auto mesh = std::make_shared<Mesh>();
  mesh->region_names = {"core", "air", "winding"};
  const int columns = 3 * layers;
  mesh->nodes.resize(2, 2 * (columns + 1));
  mesh->triangles.resize(3, 2 * columns);
  mesh->region_of.resize(2 * columns);
  for (int i = 0; i <= columns; ++i) {
    const int region = std::min(i / layers, 2);
    const double r = ends[region] + (ends[region + 1] - ends[region]) * (i - region * layers) / layers;
    mesh->nodes.col(2 * i) << r, 0;
    mesh->nodes.col(2 * i + 1) << r, height;
  }
  for (int i = 0; i < columns; ++i) {
    mesh->triangles.col(2 * i) << 2 * i, 2 * i + 2, 2 * i + 1;
    mesh->triangles.col(2 * i + 1) << 2 * i + 1, 2 * i + 2, 2 * i + 3;
    mesh->region_of[2 * i] = mesh->region_of[2 * i + 1] = i / layers;
  }
  return mesh;
}

struct Slice {
  double sheet_flux_Wb, core_b_T, core_coenergy_density;  ///< winding's thickness and bore taken off
};

Slice solve_slice(const SoftLaw& law, double n_i) {
  Problem problem;
  problem.regions.resize(3);
  problem.circuits = 1;
  problem.blending_length = core_radius / 3;
  problem.regions[0].material = law;
  problem.regions[2].winding = Winding{0, 1 / (height * thickness)};
  FieldOptions options;
  options.order = 4;
  const Field field = solve_field(slice(8), problem, Eigen::VectorXd::Constant(1, n_i * height), options);
  REQUIRE(field.report.usable());
  const double flux = field.linkage_Wb[0] - 2 * pi * mu0 * n_i * winding_gain;
  const double outside = 0.5 * mu0 * n_i * n_i * bore_area + pi * mu0 * n_i * n_i * winding_gain;
  return {flux, flux_density(field, {0.5 * core_radius, 0.4 * height}).z,
          (field.coenergy_J / height - outside) / core_area};
}

}  // namespace

TEST_CASE("a slice of an infinite solenoid with a linear core holds n I, up to a permeability of 5000") {
  // The closed circuit leaves no field outside the core but n I, so that its error grows with the
  // permeability: 8 layers a region at order 4 leave a few 1e-10 at 5000 and rounding at 200.
  for (const double mu_r : {1.0, 5.0, 50.0, 200.0, 5000.0}) {
    const double tolerance = mu_r > 200 ? 1e-8 : 1e-9, n_i = 1000, b = mu0 * mu_r * n_i;
    INFO("mu_r " << mu_r);
    const Slice found = solve_slice(LinearLaw(mu_r), n_i);
    CHECK(found.sheet_flux_Wb == near(b * core_area + mu0 * n_i * bore_area, tolerance));
    CHECK(found.core_coenergy_density == near(0.5 * b * n_i, tolerance));
    CHECK(found.core_b_T == near(b, tolerance));
  }
}

TEST_CASE("a slice of an infinite solenoid with a saturating core gives B, flux and coenergy as printed") {
  const CsvTable table = read_csv("data/published/infinite_solenoid_core.csv");
  int rows_checked = 0;
  for (const NamedLaw& entry : laws_of_published_cases())
    for (std::size_t i = 0; i < table.rows.size(); ++i) {
      if (table.text(i, "law") != entry.name) continue;
      const double n_i = table.number(i, "nI_A_per_m");
      INFO(entry.name << " at n I = " << n_i << " A/m");
      const Slice found = solve_slice(entry.law, n_i);
      CHECK(found.sheet_flux_Wb == near(table.number(i, "flux_Wb"), 1e-9));
      CHECK(found.core_coenergy_density == near(table.number(i, "coenergy_density_core_J_per_m3"), 1e-9));
      CHECK(found.core_b_T == near(table.number(i, "B_core_T"), 2e-9));  // a point, not a mean
      ++rows_checked;
    }
  CHECK(rows_checked == 18);
}

TEST_CASE(
    "a slice with a core of TEAM 13 steel holds n I, and its flux is that of the table within the joining") {
  // The published rows join the points of the table by straight lines; ours is a smooth cubic: what is left
  // is the difference between the two. That H of our curve at our B is n I is sharp.
  const CsvTable table = read_csv("data/published/infinite_solenoid_core.csv");
  const SoftLaw law = standard_catalogue().steel("team 13 steel").law;
  int rows_checked = 0;
  for (std::size_t i = 0; i < table.rows.size(); ++i) {
    if (table.text(i, "law").rfind("TEAM13", 0) != 0) continue;
    const double n_i = table.number(i, "nI_A_per_m");
    const Slice found = solve_slice(law, n_i);
    const double flux = table.number(i, "flux_Wb"),
                 coenergy = table.number(i, "coenergy_density_core_J_per_m3");
    MESSAGE("n I = " << n_i << " A/m: cubic minus lines, relative: flux " << found.sheet_flux_Wb / flux - 1
                     << ", coenergy " << found.core_coenergy_density / coenergy - 1);
    CHECK(evaluate(law, found.core_b_T).h == near(n_i, 2e-7));  // 1e-9 of B in a full steel is 4e-8 of H
    CHECK(found.sheet_flux_Wb == near(flux, 5e-3));
    CHECK(found.core_coenergy_density == near(coenergy, 5e-3));
    ++rows_checked;
  }
  CHECK(rows_checked == 6);
}
