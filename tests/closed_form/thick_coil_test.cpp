// SPDX-License-Identifier: GPL-3.0-or-later
#include "solver/closed_form/thick_coil.hpp"

#include <cmath>
#include <initializer_list>

#include "materials/constants.hpp"
#include "tests/closed_form/free_space.hpp"
#include "tests/closed_form/printed.hpp"
#include "tests/near.hpp"

using namespace coilpull;

TEST_CASE("thick solenoids have the published field on their axis, by the short and by the general formula") {
  // data/published/coil_axis_fields.csv
  const CsvFile table = read_csv("data/published/coil_axis_fields.csv");
  int checked = 0;
  for (std::size_t i = 0; i < table.records.size(); ++i) {
    const std::string& words = table.text_at(i, "coil");
    if (words.find("thick solenoid") == std::string::npos) continue;
    const double half = 0.5e-3 * number_after(words, "l="), turns = number_after(words, "NI=");
    const Box coil{1e-3 * number_after(words, "Ri="), 1e-3 * number_after(words, "Ro="), -half, half};
    const double z = table.number_at(i, "z_m");
    INFO(words << ", z = " << z);
    CHECK(printed(table, i, "Bz_T").agrees(axis_flux_density(coil, turns, z)));
    CHECK(printed(table, i, "Bz_T").agrees(flux_density(coil, turns, {0, z}).bz_T));
    ++checked;
  }
  CHECK(checked == 15);
}

TEST_CASE("two thick coils link and pull each other by the published figures") {
  // data/published/coil_pairs.csv; its last columns tell how far its two routes differ.
  const CsvFile table = read_csv("data/published/coil_pairs.csv");
  for (std::size_t i = 0; i < table.records.size(); ++i) {
    const auto number = [&](const char* name) { return table.number_at(i, name); };
    const Box lower{number("R1i_m"), number("R1o_m"), -number("l1_m"), 0};
    const Box upper{number("R2i_m"), number("R2o_m"), number("gap_m"), number("gap_m") + number("l2_m")};
    const double turns = number("N1") * number("N2");
    INFO("gap " << number("gap_m"));
    CHECK(printed(table, i, "M_H").agrees(turns * mutual_inductance(upper, lower)));
    CHECK(printed(table, i, "dM_dgap_H_per_m").agrees(turns * inductance_slope(upper, lower)));
  }
}

TEST_CASE("thick coils have the published self-inductance") {
  // data/published/coil_self_inductance.csv; the digits printed go to 4e-13.
  const CsvFile table = read_csv("data/published/coil_self_inductance.csv");
  for (std::size_t i = 0; i < table.records.size(); ++i) {
    const double half = 0.5 * table.number_at(i, "length_m"), turns = table.number_at(i, "N");
    const Box coil{table.number_at(i, "Ri_m"), table.number_at(i, "Ro_m"), -half, half};
    INFO(table.text_at(i, "coil"));
    CHECK(turns * turns * self_inductance(coil) == near(table.number_at(i, "L_H"), 1e-12));
  }
}

TEST_CASE("in and around a thick coil div B is 0 and curl B is mu0 J") {
  const Box coil{0.006, 0.012, -0.01, 0.01};
  const double ampere_turns = 500, density = ampere_turns / (0.006 * 0.02);
  const auto b = [&](Point at) { return flux_density(coil, ampere_turns, at); };
  for (const Point at : {Point{0.003, 0.002}, Point{0.009, 0.003}, Point{0.0075, -0.009}, Point{0.009, 0.012},
                         Point{0.014, 0.001}, Point{0.0118, 0.0099}, Point{0.05, 0.02}}) {
    INFO("r = " << at.r << ", z = " << at.z);
    const double h = 2e-6;
    const Leftover left = leftover_at(at, h, b);
    const SourceField here = b(at);
    const bool inside = at.r > 0.006 && at.r < 0.012 && std::abs(at.z) < 0.01;
    const double expected = inside ? mu0 * density * h / std::hypot(here.br_T, here.bz_T) : 0;
    CHECK(std::abs(left.divergence) < 1e-11);
    CHECK(std::abs(left.curl - expected) < 1e-11);
  }
}

TEST_CASE("the field on the very ends of a winding has a limit that both sides approach") {
  const Box coil{0.006, 0.012, -0.01, 0.01};
  const SourceField on = flux_density(coil, 500, {0.009, 0.01});
  const SourceField above = flux_density(coil, 500, {0.009, 0.01 + 1e-9});
  const SourceField below = flux_density(coil, 500, {0.009, 0.01 - 1e-9});
  CHECK(on.br_T == near(above.br_T, 1e-5));
  CHECK(0.5 * (above.br_T + below.br_T) == near(on.br_T, 5e-7));  // a kink: height over width, 2e-7
  CHECK(on.bz_T == near(0.5 * (above.bz_T + below.bz_T), 1e-9));
}

TEST_CASE("coils that touch: the self-inductance of a whole is that of its halves and what they share") {
  const Box whole{0.006, 0.012, -0.01, 0.01};
  const Box lower{0.006, 0.012, -0.01, 0}, upper{0.006, 0.012, 0, 0.01};
  const Box inner{0.006, 0.009, -0.01, 0.01}, outer{0.009, 0.012, -0.01, 0.01};
  const double exact = self_inductance(whole);
  const auto of_halves = [](const Box& a, const Box& b) {
    return 0.25 * (self_inductance(a) + self_inductance(b)) + 0.5 * mutual_inductance(a, b);
  };
  CHECK(of_halves(lower, upper) == near(exact, 1e-11));
  CHECK(of_halves(inner, outer) == near(exact, 1e-11));
}

TEST_CASE("the pull between thick coils is the slope of their inductance, equal and opposite") {
  const Box outer{0.011, 0.016, -0.012, 0.012}, inner{0.004, 0.01, -0.006, 0.006};
  for (const double z : {0.003, 0.012, 0.02, 0.05}) {
    const auto at = [&](double shift) {
      return Box{inner.r_from, inner.r_to, inner.z_from + shift, inner.z_to + shift};
    };
    const double slope = slope_at(z, 2e-5, [&](double shift) { return mutual_inductance(at(shift), outer); });
    CHECK(inductance_slope(at(z), outer) == near(slope, 1e-8));
    CHECK(inductance_slope(outer, at(z)) == near(-inductance_slope(at(z), outer), 1e-11));
  }
}
