// SPDX-License-Identifier: GPL-3.0-or-later
#include "solver/closed_form/current_sheet.hpp"

#include <algorithm>
#include <cmath>
#include <initializer_list>

#include "materials/constants.hpp"
#include "solver/closed_form/thin_loop.hpp"
#include "tests/closed_form/free_space.hpp"
#include "tests/closed_form/printed.hpp"
#include "tests/near.hpp"
#include "tests/published/rings.hpp"

using namespace coilpull;

namespace {

const CurrentSheet sheet{0.01, -0.005, 0.015};
const double ampere_turns = 300;
const Point around[] = {{0.001, 0.02},    {0.0002, 0.004}, {0.007, 0.004}, {0.013, 0.004}, {0.0099, 0.0151},
                        {0.0102, -0.006}, {0.02, 0.03},    {0.03, 0.005},  {0.05, 0.005},  {0.3, 0.5}};

/// The same by loops at many Gauss points: 40 panels of 20.
template <class F>
auto by_loops(const CurrentSheet& s, const F& of_loop) {
  const MeanRule rule = mean_rule(20);
  const int panels = 40;
  decltype(of_loop(Loop{})) sum{};
  for (int p = 0; p < panels; ++p)
    for (std::size_t i = 0; i < rule.at.size(); ++i)
      sum += (rule.weight[i] / panels) *
             of_loop(Loop{s.radius, s.z_from + (s.z_to - s.z_from) * (p + rule.at[i]) / panels});
  return sum;
}

}  // namespace

TEST_CASE("thin solenoids have the published field on their axis, by the short and by the general formula") {
  // data/published/coil_axis_fields.csv
  const CsvFile table = read_csv("data/published/coil_axis_fields.csv");
  int checked = 0;
  for (std::size_t i = 0; i < table.records.size(); ++i) {
    const std::string& words = table.text_at(i, "coil");
    if (words.find("thin solenoid") == std::string::npos) continue;
    const double half = 0.5e-3 * number_after(words, "l="), turns = number_after(words, "NI=");
    const CurrentSheet coil{1e-3 * number_after(words, "R="), -half, half};
    const double z = table.number_at(i, "z_m");
    INFO(words << ", z = " << z);
    CHECK(printed(table, i, "Bz_T").agrees(axis_flux_density(coil, turns, z)));
    CHECK(printed(table, i, "Bz_T").agrees(flux_density(coil, turns, {0, z}).bz_T));
    ++checked;
  }
  CHECK(checked == 10);
}

TEST_CASE("a sheet's field and potential are the sum of its loops'") {
  for (const Point at : around) {
    INFO("r = " << at.r << ", z = " << at.z);
    const SourceField b = flux_density(sheet, ampere_turns, at);
    const SourceField sum = by_loops(sheet, [&](const Loop& l) { return flux_density(l, ampere_turns, at); });
    const double size = std::hypot(sum.br_T, sum.bz_T);
    CHECK(std::abs(b.br_T - sum.br_T) < 2e-13 * size);
    CHECK(std::abs(b.bz_T - sum.bz_T) < 2e-13 * size);
    CHECK(vector_potential(sheet, ampere_turns, at) ==
          near(by_loops(sheet, [&](const Loop& l) { return vector_potential(l, ampere_turns, at); }), 2e-13));
  }
}

TEST_CASE("off the sheet its field has neither source nor curl and is the curl of its potential") {
  for (const Point at : around) {
    INFO("r = " << at.r << ", z = " << at.z);
    const double edge = std::min(std::hypot(at.r - sheet.radius, at.z - sheet.z_from),
                                 std::hypot(at.r - sheet.radius, at.z - sheet.z_to));
    const double h = 1e-3 * std::min({at.r, edge, std::abs(at.r - sheet.radius)});
    const auto b = [](Point p) { return flux_density(sheet, ampere_turns, p); };
    const Leftover left = leftover_at(at, h, b);
    CHECK(std::abs(left.divergence) < 1e-12);
    CHECK(std::abs(left.curl) < 1e-12);
    const SourceField here = b(at);
    const SourceField curl = curl_of(at, h, [](Point p) { return vector_potential(sheet, ampere_turns, p); });
    const double size = std::hypot(here.br_T, here.bz_T);
    CHECK(std::abs(curl.br_T - here.br_T) < 1e-9 * size);
    CHECK(std::abs(curl.bz_T - here.bz_T) < 1e-9 * size);
  }
}

TEST_CASE("the near and the far way to a sheet's field meet where they change over") {
  // Three half lengths off: 0.03 from the middle at z = 0.005. A step of 1e-9 changes B by 1e-7 of itself.
  const double inside = 0.04 - 1e-12, outside = 0.04 + 1e-12;
  const SourceField near_way = flux_density(sheet, ampere_turns, {inside, 0.005});
  const SourceField far_way = flux_density(sheet, ampere_turns, {outside, 0.005});
  CHECK(near_way.bz_T == near(far_way.bz_T, 3e-10));
  CHECK(vector_potential(sheet, ampere_turns, {inside, 0.005}) ==
        near(vector_potential(sheet, ampere_turns, {outside, 0.005}), 3e-10));
}

TEST_CASE("B_z jumps by mu0 K through a sheet, and on the sheet is the mean of both sides") {
  const double a = sheet.radius, z = 0.004, k = ampere_turns / (sheet.z_to - sheet.z_from);
  const double in = flux_density(sheet, ampere_turns, {a * (1 - 1e-13), z}).bz_T;
  const double out = flux_density(sheet, ampere_turns, {a * (1 + 1e-13), z}).bz_T;
  CHECK(in - out == near(mu0 * k, 1e-11));
  CHECK(flux_density(sheet, ampere_turns, {a, z}).bz_T == near(0.5 * (in + out), 1e-11));
}

TEST_CASE("a long solenoid holds mu0 n I, a short one is a loop") {
  const CurrentSheet long_one{0.01, -10, 10};
  // misses (a/l)^2 / 2 of the half length: 5e-7
  CHECK(flux_density(long_one, 1000, {0.006, 0.3}).bz_T == near(mu0 * 1000 / 20, 6e-7));
  const CurrentSheet short_one{0.01, 0.002 - 1e-7, 0.002 + 1e-7};
  const Point at{0.004, 0.006};  // misses (half length / distance)^2 = 1e-10
  CHECK(flux_density(short_one, 5, at).bz_T == near(flux_density(Loop{0.01, 0.002}, 5, at).bz_T, 1e-9));
  CHECK(mutual_inductance(short_one, CurrentSheet{0.012, -1e-7, 1e-7}) ==
        near(mutual_inductance(Loop{0.01, 0.002}, Loop{0.012, 0}), 1e-8));
}

TEST_CASE("sheets link and pull each other as the sum of their loops, near, nested and far") {
  const CurrentSheet others[] = {{0.008, 0.016, 0.03},   {0.01, 0.0155, 0.03}, {0.012, -0.01, 0.02},
                                 {0.004, -0.002, 0.001}, {0.02, 0.06, 0.07},   {0.01, 0.2, 0.25}};
  for (const CurrentSheet& other : others) {
    INFO("other: radius " << other.radius << " from " << other.z_from);
    const auto pairs = [&](PairFunction f) {
      return by_loops(sheet, [&](const Loop& l) {
        return by_loops(other, [&](const Loop& m) { return f(l.radius, m.radius, m.z - l.z); });
      });
    };
    const double peak = mutual_inductance(sheet, other) / 0.01;  // of a slope, when it passes through zero
    CHECK(mutual_inductance(sheet, other) == near(pairs(ring_inductance), 1e-12));
    CHECK(std::abs(inductance_slope(other, sheet) - pairs(ring_inductance_slope)) < 1e-12 * peak);
    CHECK(mutual_inductance(sheet, other) == near(mutual_inductance(other, sheet), 1e-14));
    CHECK(std::abs(inductance_slope(sheet, other) + inductance_slope(other, sheet)) < 1e-14 * peak);
  }
}

TEST_CASE("the pull between sheets is the slope of their inductance, and the flux is the potential's") {
  const CurrentSheet other{0.008, 0, 0.014};
  for (const double shift : {-0.03, -0.004, 0.002, 0.017, 0.04}) {
    const auto at = [&](double z) { return CurrentSheet{other.radius, other.z_from + z, other.z_to + z}; };
    const double slope = slope_at(shift, 1e-5, [&](double z) { return mutual_inductance(at(z), sheet); });
    CHECK(inductance_slope(at(shift), sheet) == near(slope, 1e-9));  // (step/distance)^4, rounding over step
  }
  const Loop turn{0.0085, 0.019};
  CHECK(2 * pi * turn.radius * vector_potential(sheet, 1, {turn.radius, turn.z}) ==
        near(mutual_inductance(sheet, CurrentSheet{turn.radius, turn.z - 1e-7, turn.z + 1e-7}), 1e-9));
}
