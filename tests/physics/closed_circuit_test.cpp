// SPDX-License-Identifier: GPL-3.0-or-later
#include <doctest/doctest.h>

#include <cmath>

#include "materials/constants.hpp"
#include "solver/device/make_problem.hpp"
#include "solver/fem/quadrature.hpp"
#include "solver/field/field_solver.hpp"
#include "solver/refine/resolution_for.hpp"
#include "tests/near.hpp"
#include "tests/physics/devices.hpp"

using namespace coilpull;

namespace {

constexpr double mu_r = 5000, ampere_turns = 300;

/// A pot core of three glued pieces without any gap, its winding inside: hardly any field but in the steel.
Device closed_pot() {
  Device device;
  const LinearLaw steel{mu_r};
  device.cores = {core("post", rectangle(0, 6e-3, 4e-3, 24e-3), steel),
                  core("shell", rectangle(14e-3, 17e-3, 4e-3, 24e-3), steel),
                  core("floor", rectangle(0, 17e-3, 0, 4e-3), steel),
                  core("lid", rectangle(0, 17e-3, 24e-3, 28e-3), steel)};
  device.coils = {coil("coil", rectangle(7e-3, 13e-3, 6e-3, 22e-3), ampere_turns)};
  device.displacements = {0};
  device.circuits = {"coil"};
  device.currents_A = {{1}};
  return device;
}

Field solved(const Device& device, const Resolution& resolution, int order) {
  const auto mesh = mesh_of(device, 0, resolution);
  FieldOptions options;
  options.order = order;
  return solve_field(mesh, make_problem(device, mesh->region_names), amperes({1}), options);
}

/// int H . dl along a straight line inside the steel, panels of Gauss points.
double h_along(const Field& field, Point from, Point to) {
  const detail::LineRule rule = detail::gauss_rule(6);
  constexpr int panels = 12;
  double sum = 0;
  for (int panel = 0; panel < panels; ++panel)
    for (Eigen::Index k = 0; k < rule.points.size(); ++k) {
      const double s = (panel + rule.points[k]) / panels, dr = to.r - from.r, dz = to.z - from.z;
      const FluxDensity b = flux_density(field, {from.r + s * dr, from.z + s * dz});
      sum += rule.weights[k] / panels * (b.r * dr + b.z * dz) / (mu0 * mu_r);
    }
  return sum;
}

}  // namespace

TEST_CASE("around a closed circuit of permeability 5000 H adds up to the ampere-turns inside") {
  // Ampere's law on a path that stays in the steel: up the post, out through the lid, down the shell, back
  // through the floor. Nothing in the formulation enforces it there: v must carry a flux with hardly any
  // field beside it.
  for (const int order : {3, 4}) {
    const Field field = solved(closed_pot(), Resolution{}, order);
    const Point a{3e-3, 2e-3}, b{3e-3, 26e-3}, c{15.5e-3, 26e-3}, d{15.5e-3, 2e-3};
    const double around =
        h_along(field, a, b) + h_along(field, b, c) + h_along(field, c, d) + h_along(field, d, a);
    INFO("order " << order);
    CHECK(around == near(ampere_turns, 1e-3));
  }
}

TEST_CASE(
    "flux linkage of a closed circuit of permeability 5000 at the default mesh is that of a far finer one") {
  const double plain = solved(closed_pot(), Resolution{}, 4).linkage_Wb[0];
  const double fine = solved(closed_pot(), resolution_for(1e-6), 5).linkage_Wb[0];
  MESSAGE("linkage " << plain << " and " << fine << " Wb");
  CHECK(plain == near(fine, 1e-4));
}
