// SPDX-License-Identifier: GPL-3.0-or-later
#include "solver/closed_form/axial_magnet.hpp"

#include <algorithm>
#include <cmath>
#include <initializer_list>

#include "materials/constants.hpp"
#include "solver/closed_form/nagaoka.hpp"
#include "solver/closed_form/thick_coil.hpp"
#include "tests/closed_form/printed.hpp"
#include "tests/near.hpp"
#include "tests/published/rings.hpp"

using namespace coilpull;

TEST_CASE("a cylinder magnet has the published field, inside and around") {
  // data/published/magnet_field_points.csv: radius 5 mm, length 10 mm, Br 1.3 T, recoil permeability 1.
  const CsvFile table = read_csv("data/published/magnet_field_points.csv");
  const AxialMagnet magnet{{0, 0.005, -0.005, 0.005}, 1.3};
  for (std::size_t i = 0; i < table.records.size(); ++i) {
    const Point at{table.number_at(i, "r_m"), table.number_at(i, "z_m")};
    INFO("r = " << at.r << ", z = " << at.z);
    const SourceField b = flux_density(magnet, at);
    if (at.r == 0)
      CHECK(b.br_T == 0);
    else if (at.z == 0)
      CHECK(std::abs(b.br_T) < 1e-16);  // zero by symmetry, but for rounding
    else
      CHECK(printed(table, i, "B_r_T").agrees(b.br_T));
    CHECK(printed(table, i, "B_z_T").agrees(b.bz_T));
    if (at.r == 0) CHECK(printed(table, i, "B_z_T").agrees(axis_flux_density(magnet, at.z)));
  }
}

namespace {

/// The magnet and the coil of a row of data/published/axial_forces.csv, the coil about z = 0.
double published_case(const std::string& which, const std::string& words, double z) {
  if (which == "D-thick") {
    const AxialMagnet magnet{{0, 0.010, z, z + 0.010}, 1.3};
    return force_on(magnet, Box{0.004, 0.014, -0.020, 0}, 800 * 2);
  }
  const double radius = 1e-3 * number_after(words, "magnet r="), half = 0.5e-3 * number_after(words, " L=");
  const AxialMagnet magnet{{0, radius, z - half, z + half}, 1.0};
  if (which == "A-thin") return force_on(magnet, CurrentSheet{0.01025, -0.010, 0.010}, 40);
  if (which == "B-thick") return force_on(magnet, Box{0.010, 0.015, -0.010, 0.010}, 100);
  const double inner = 1e-3 * number_after(words, "Ri="), thick = 1e-3 * number_after(words, "thickness ");
  return force_on(magnet, Box{inner, inner + thick, -0.0295, 0.0295}, 59 * std::round(1e3 * thick));
}

}  // namespace

TEST_CASE("coils pull magnets by the published forces") {
  // data/published/axial_forces.csv, A to E: geometry of Robertson's tables, recomputed there by two routes.
  const CsvFile table = read_csv("data/published/axial_forces.csv");
  int checked = 0;
  for (std::size_t i = 0; i < table.records.size(); ++i) {
    const std::string& which = table.text_at(i, "case");
    if (which[0] > 'E') continue;
    const std::string& position = table.text_at(i, "position");
    INFO(which << " " << position);
    const double force =
        published_case(which, table.text_at(i, "description"), 1e-3 * number_after(position, "mm="));
    CHECK(printed(table, i, "F_N").agrees(force));
    ++checked;
  }
  CHECK(checked == 21);
}

TEST_CASE("magnets pull magnets by the published forces") {
  const CsvFile table = read_csv("data/published/axial_forces.csv");
  int checked = 0;
  for (std::size_t i = 0; i < table.records.size(); ++i) {
    if (table.text_at(i, "case") != "F-magnets") continue;
    const std::string& words = table.text_at(i, "description");
    const bool small = words.find("10x10") != std::string::npos,
               discs = words.find("20x5") != std::string::npos;
    const double gap = 1e-3 * number_after(table.text_at(i, "position"), "gap_mm=");
    // "10x10": diameter by length; "unequal": both 10 mm long
    const double r1 = small ? 5e-3 : 10e-3, r2 = discs ? 10e-3 : 5e-3, length = discs ? 5e-3 : 10e-3;
    const double br = small ? 1.0 : discs ? 1.2 : 1.3;
    const AxialMagnet lower{{0, r1, -length, 0}, br}, upper{{0, r2, gap, gap + length}, br};
    INFO(words << ", gap " << gap);
    CHECK(printed(table, i, "F_N").agrees(force_on(upper, lower)));
    CHECK(force_on(lower, upper) == near(-force_on(upper, lower), 1e-12));
    ++checked;
  }
  CHECK(checked == 21);
}

TEST_CASE("a tube magnet is its outside less its bore, and pulls as many thin rings do") {
  const AxialMagnet tube{{0.003, 0.007, 0.012, 0.022}, 1.2};
  const AxialMagnet full{{0, 0.007, 0.012, 0.022}, 1.2}, bore{{0, 0.003, 0.012, 0.022}, 1.2};
  for (const Point at : {Point{0, 0.017}, Point{0.005, 0.017}, Point{0.004, 0.025}})
    CHECK(flux_density(tube, at).bz_T ==
          near(flux_density(full, at).bz_T - flux_density(bore, at).bz_T, 1e-13));
  // The pull by a coil, as Br/mu0 times M at both ends (tests/published/rings.hpp) over the coil's section.
  const Box coil{0.008, 0.012, -0.01, 0.01};
  const MeanRule rule = mean_rule(30);
  double by_rings = 0;
  for (std::size_t i = 0; i < 30; ++i)
    for (std::size_t j = 0; j < 30; ++j) {
      const double r = 0.008 + 0.004 * rule.at[i], z = -0.01 + 0.02 * rule.at[j];
      by_rings += rule.weight[i] * rule.weight[j] *
                  (force_on_cylinder(0.007, 0.012 - z, 0.022 - z, 1.2, r) -
                   force_on_cylinder(0.003, 0.012 - z, 0.022 - z, 1.2, r));
    }
  CHECK(force_on(tube, coil, 250) == near(250 * by_rings, 1e-11));
  CHECK(dipole_moment(tube) == near(1.2 / mu0 * pi * (0.007 * 0.007 - 0.003 * 0.003) * 0.010, 1e-14));
}

TEST_CASE("what a moving magnet induces in a coil is what the coil pulls it with") {
  // d(linkage)/dz = F/I; five-point slope over 10 um of a field that changes over 10 mm.
  const Box coil{0.008, 0.012, -0.01, 0.01};
  const auto at = [](double z) { return AxialMagnet{{0, 0.006, z, z + 0.01}, 1.1, 1.05}; };
  const double h = 1e-5, z = 0.004;
  const double slope = (8 * (flux_linkage(coil, at(z + h)) - flux_linkage(coil, at(z - h))) -
                        (flux_linkage(coil, at(z + 2 * h)) - flux_linkage(coil, at(z - 2 * h)))) /
                       (12 * h);
  CHECK(force_on(at(z), coil, 1) == near(slope, 1e-9));
}

TEST_CASE("the recoil factor meets the moment of cylinders of recoil permeability above 1") {
  // data/published/magnet_recoil_moment.csv, where the magnetisation is left free to be uneven.
  const CsvFile table = read_csv("data/published/magnet_recoil_moment.csv");
  double worst = 0;
  for (std::size_t i = 0; i < table.records.size(); ++i) {
    const double gamma = table.number_at(i, "gamma"), recoil = table.number_at(i, "mu_rec");
    const AxialMagnet magnet{{0, 0.005, -0.005 * gamma, 0.005 * gamma}, 1.2, recoil};
    worst = std::max(worst, std::abs(recoil_factor(magnet) / table.number_at(i, "moment/(V*Br/mu0)") - 1));
    CHECK(recoil_factor(magnet) ==
          near(1 / (1 + (recoil - 1) * (1 - nagaoka_coefficient(1 / gamma))), 1e-13));
  }
  CHECK(worst < 7e-5);
}

TEST_CASE("far apart magnets pull each other as dipoles, and the header tells how much is missing") {
  // Cylinders: the true pull is larger by 5/6 of the sum of (l^2 - 3 a^2) over d^2; the term after that is of
  // (size/d)^4, of which 20 hold it: 19 for two discs.
  const double shapes[][2] = {{5e-3, 10e-3}, {10e-3, 4e-3}, {1e-3, 10e-3}, {3e-3, 3e-3}};
  for (const auto& one : shapes)
    for (const auto& other : shapes) {
      const double size = std::max({one[0], one[1], other[0], other[1]}), d = 20 * size;
      const AxialMagnet lower{{0, one[0], -one[1] / 2, one[1] / 2}, 1};
      const AxialMagnet upper{{0, other[0], d - other[1] / 2, d + other[1] / 2}, 1};
      const double extra =
          -force_on(upper, lower) / dipole_attraction(dipole_moment(lower), dipole_moment(upper), d) - 1;
      const double told =
          5.0 / 6 * (one[1] * one[1] - 3 * one[0] * one[0] + other[1] * other[1] - 3 * other[0] * other[0]) /
          (d * d);
      CHECK(std::abs(extra - told) < 20 * std::pow(size / d, 4));
    }
}
