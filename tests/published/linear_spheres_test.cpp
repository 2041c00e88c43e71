// SPDX-License-Identifier: GPL-3.0-or-later
// Figures: data/published/linear_spheres.csv (Jackson, Classical Electrodynamics, 3rd ed., sec. 5.12: ball
// and shell of constant permeability in a uniform field; sec. 5.10 with recoil permeability: magnetised
// ball). Nothing here has a corner: curved triangles of order 4 leave 1e-5.
#include <cmath>
#include <cstdlib>

#include "apps/validation/balls.hpp"
#include "apps/validation/fe_path.hpp"
#include "materials/constants.hpp"
#include "tests/near.hpp"
#include "tests/read_csv.hpp"

using namespace coilpull;

namespace {

constexpr double radius = 0.010;    // [m]
constexpr double tolerance = 1e-5;  // of the field inside and out
const Point inside[] = {{0, 0}, {0.4 * radius, 0.1 * radius}, {0.1 * radius, -0.4 * radius}};

double after_equals(const std::string& words) { return std::atof(words.c_str() + words.rfind('=') + 1); }

}  // namespace

TEST_CASE("a ball of constant permeability in a uniform field is magnetised evenly") {
  const CsvFile table = read_csv("data/published/linear_spheres.csv");
  FePath path(4);
  int checked = 0;
  for (std::size_t i = 0; i < table.records.size(); ++i) {
    if (table.text_at(i, "body") != "linear sphere") continue;
    const double mu_r = after_equals(table.text_at(i, "parameter")), ratio = table.number_at(i, "value");
    const auto solved = path.solve(core_in_field(ball(radius, 0), LinearLaw{mu_r}, 1000, radius), 0, {{}});
    INFO("mu_r = " << mu_r);
    for (const Point at : inside) {
      CHECK(solved[0].b_z(at) == near(ratio * mu0 * 1000, tolerance));
      CHECK(std::fabs(solved[0].b_r(at)) < tolerance * ratio * mu0 * 1000);
    }
    ++checked;
  }
  CHECK(checked == 4);
}

TEST_CASE("a shell keeps its cavity from the field, and is a dipole outside") {
  const CsvFile table = read_csv("data/published/linear_spheres.csv");
  FePath path(4);
  int checked = 0;
  for (std::size_t i = 0; i + 1 < table.records.size(); ++i) {
    const std::string& body = table.text_at(i, "body");
    if (body.find("shell") == std::string::npos || table.text_at(i, "quantity") != "H_cavity/H0") continue;
    const double bore = after_equals(body), mu_r = after_equals(table.text_at(i, "parameter"));
    const double cavity = table.number_at(i, "value"), dipole = table.number_at(i + 1, "value");
    const Outline shell = hollow_ball(radius, bore * radius);
    const auto solved = path.solve(core_in_field(shell, LinearLaw{mu_r}, 1000, 1.5 * radius), 0, {{}});
    INFO(body << ", mu_r = " << mu_r);
    // What is left in the cavity is a small difference of large numbers: the error is one of H0, not of it.
    CHECK(std::fabs(solved[0].b_z({0, 0}) / (mu0 * 1000) - cavity) < tolerance);
    CHECK(std::fabs(solved[0].b_z({0.3 * radius, 0.2 * radius}) / (mu0 * 1000) - cavity) < tolerance);
    const double outside = 1 + 2 * dipole / std::pow(1.5, 3);  // on the axis at 1.5 radii
    CHECK(solved[0].b_z({0, 1.5 * radius}) == near(outside * mu0 * 1000, tolerance));
    ++checked;
  }
  CHECK(checked == 12);
}

TEST_CASE("a magnetised ball holds two thirds of its remanence evenly, less with recoil, and is a dipole") {
  const CsvFile table = read_csv("data/published/linear_spheres.csv");
  FePath path(4);
  int checked = 0;
  for (std::size_t i = 0; i + 2 < table.records.size(); ++i) {
    if (table.text_at(i, "quantity") != "B_in_T") continue;
    const double recoil = after_equals(table.text_at(i, "parameter")), b_in = table.number_at(i, "value");
    Device device;
    device.magnets = {{"ball", ball(radius, 0), MagnetLaw{0, 1.2, recoil}, "test"}};
    device.sensors = {{"far", {0, 2 * radius}}};
    const auto solved = path.solve(device, 0, {{}});
    INFO("recoil permeability " << recoil);
    for (const Point at : inside) CHECK(solved[0].b_z(at) == near(b_in, tolerance));
    CHECK(solved[0].b_z({0, 2 * radius}) == near(table.number_at(i + 2, "value"), tolerance));
    ++checked;
  }
  CHECK(checked == 4);
}
