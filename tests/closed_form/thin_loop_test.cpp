// SPDX-License-Identifier: GPL-3.0-or-later
#include "solver/closed_form/thin_loop.hpp"

#include <algorithm>
#include <cmath>
#include <initializer_list>

#include "materials/constants.hpp"
#include "tests/closed_form/free_space.hpp"
#include "tests/closed_form/printed.hpp"
#include "tests/near.hpp"

using namespace coilpull;

namespace {
const Loop loop{0.02, 0.003};
const double amperes = 7;
const Point off_axis[] = {{0.001, 0.01}, {0.015, 0.003}, {0.025, 0.003},
                          {0.02, 0.012}, {0.3, -0.2},    {0.004, 1.5}};
}  // namespace

TEST_CASE("two loops link and pull each other as Maxwell's formula tells, to the last printed digit") {
  // data/published/filaments.csv, recomputed there by elliptic integrals and by Neumann's quadrature.
  const CsvFile table = read_csv("data/published/filaments.csv");
  for (std::size_t i = 0; i < table.records.size(); ++i) {
    const Loop lower{table.number_at(i, "radius1_m"), 0};
    const Loop upper{table.number_at(i, "radius2_m"), table.number_at(i, "spacing_m")};
    INFO("row " << i);
    CHECK(printed(table, i, "M_H").agrees(mutual_inductance(upper, lower)));
    CHECK(printed(table, i, "dM_dd_H_per_m").agrees(inductance_slope(upper, lower)));
    CHECK(mutual_inductance(lower, upper) == near(mutual_inductance(upper, lower), 1e-15));
    if (upper.z > 0) CHECK(inductance_slope(lower, upper) == near(-inductance_slope(upper, lower), 1e-15));
  }
}

TEST_CASE("a loop's field on its axis is mu0 I a^2 / (2 (a^2 + z^2)^(3/2))") {
  // Jackson, Classical Electrodynamics, 3rd ed., sec. 5.5; rounding is all that may differ.
  for (const double height : {-0.5, -0.01, 0.0, 0.02, 3.0}) {
    const SourceField b = flux_density(loop, amperes, {0, loop.z + height});
    const double a = loop.radius;
    CHECK(b.bz_T == near(mu0 * amperes * a * a / (2 * std::pow(a * a + height * height, 1.5)), 1e-14));
    CHECK(b.br_T == 0);
  }
}

TEST_CASE("Helmholtz pairs have the published field on their axis") {
  // data/published/coil_axis_fields.csv, last rows: N turns at +-R/2.
  const CsvFile table = read_csv("data/published/coil_axis_fields.csv");
  int checked = 0;
  for (std::size_t i = 0; i < table.records.size(); ++i) {
    const std::string& words = table.text_at(i, "coil");
    if (words.find("Helmholtz") == std::string::npos) continue;
    const double radius = number_after(words, "R="), turns = number_after(words, "N=");
    const Point at{0, table.number_at(i, "z_m")};
    const double bz = flux_density(Loop{radius, -0.5 * radius}, turns, at).bz_T +
                      flux_density(Loop{radius, 0.5 * radius}, turns, at).bz_T;
    CHECK(printed(table, i, "Bz_T").agrees(bz));
    ++checked;
  }
  CHECK(checked == 8);
}

TEST_CASE("off the wire a loop's field has neither source nor curl and is the curl of its potential") {
  const auto b = [](Point at) { return flux_density(loop, amperes, at); };
  const auto a = [](Point at) { return vector_potential(loop, amperes, at); };
  for (const Point at : off_axis) {
    INFO("r = " << at.r << ", z = " << at.z);
    const double h = 1e-3 * std::min(at.r, std::hypot(at.r - loop.radius, at.z - loop.z));
    const Leftover left = leftover_at(at, h, b);  // differences: (h/distance)^4, and rounding over h
    CHECK(std::abs(left.divergence) < 1e-12);
    CHECK(std::abs(left.curl) < 1e-12);
    const SourceField curl = curl_of(at, h, a), here = b(at);
    const double size = std::hypot(here.br_T, here.bz_T);
    CHECK(std::abs(curl.br_T - here.br_T) < 1e-10 * size);
    CHECK(std::abs(curl.bz_T - here.bz_T) < 1e-10 * size);
  }
}

TEST_CASE("far from a loop its field is that of a dipole, without loss of digits") {
  // Jackson, sec. 5.6: B = mu0 m / (4 pi d^3) (2 cos, sin) along (d, theta). What is left is (a/d)^2.
  const double distance = 1e5 * loop.radius, moment = amperes * pi * loop.radius * loop.radius;
  for (const double theta : {0.3, 1.0, 1.5, 2.5}) {
    const Point at{distance * std::sin(theta), loop.z + distance * std::cos(theta)};
    const SourceField b = flux_density(loop, amperes, at);
    const double along = b.br_T * std::sin(theta) + b.bz_T * std::cos(theta);
    const double across = b.br_T * std::cos(theta) - b.bz_T * std::sin(theta);
    const double scale = mu0 * moment / (4 * pi * distance * distance * distance);
    CHECK(along == near(2 * scale * std::cos(theta), 1e-9));
    CHECK(across == near(scale * std::sin(theta), 1e-9));
  }
}

TEST_CASE("close to the wire the field is that of a straight wire, and on it there is none to tell") {
  // mu0 I / (2 pi d), the next term being smaller by d/a ln(a/d) / 2 = 7e-8.
  const double d = 1e-8 * loop.radius;
  const SourceField above = flux_density(loop, amperes, {loop.radius, loop.z + d});
  CHECK(above.br_T == near(mu0 * amperes / (2 * pi * d), 1e-7));
  CHECK(std::isnan(flux_density(loop, amperes, {loop.radius, loop.z}).bz_T));
  CHECK(std::isinf(vector_potential(loop, amperes, {loop.radius, loop.z})));
}
