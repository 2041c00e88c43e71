// SPDX-License-Identifier: GPL-3.0-or-later
#include "materials/bh_curve.hpp"

#include <algorithm>
#include <cmath>
#include <random>

#include "materials/bad_material.hpp"
#include "materials/constants.hpp"
#include "tests/materials/every_law.hpp"
#include "tests/near.hpp"

using namespace coilpull;

namespace {

double smallest_secant(const std::vector<BhCurve::Point>& points) {
  double smallest = INFINITY;
  for (std::size_t i = 1; i < points.size(); ++i)
    smallest = std::min(
        smallest, (points[i].h_A_per_m - points[i - 1].h_A_per_m) / (points[i].b_T - points[i - 1].b_T));
  return smallest;
}

std::string words_of_refusal(const std::vector<BhCurve::Point>& points, std::optional<double> js = {}) {
  try {
    const BhCurve curve(points, js);
  } catch (const BadMaterial& bad) {
    return bad.what();
  }
  return "accepted";
}

}  // namespace

TEST_CASE("a measured curve passes through every point of the TEAM 13 table") {
  const BhCurve curve(team13_points());
  for (const BhCurve::Point& point : team13_points()) {
    INFO("B = " << point.b_T << " T");
    if (point.b_T == 0)
      CHECK(curve.h(0) == 0);
    else
      CHECK(curve.h(point.b_T) == near(point.h_A_per_m, 1e-14));
  }
}

TEST_CASE("a measured curve through points of a hyperbola approaches it with order 3 or better") {
  // Slopes from three points: the cubic's error is of third order in the spacing.
  const FroehlichLaw law(2.1, 500);
  std::vector<double> error;
  for (const int n : {20, 40}) {
    std::vector<BhCurve::Point> points;
    for (int i = 0; i <= n; ++i) points.push_back({law.h(1.8 * i / n), 1.8 * i / n});
    const BhCurve curve(points);
    double worst = 0;
    for (double b = 0.1; b < 1.7; b += 0.00137) worst = std::max(worst, std::abs(curve.h(b) / law.h(b) - 1));
    error.push_back(worst);
  }
  CHECK(error[1] < 1e-3);
  CHECK(error[0] / error[1] > 7);  // 2^3 = 8, knee not quite resolved
}

TEST_CASE("dH/dB between measured points never falls below a fifth of the smallest secant") {
  // The bound proved in materials/detail/monotone_cubic.hpp, on tables as ragged as they may be.
  std::mt19937 random(20240607);
  std::uniform_real_distribution<double> decades(-3, 3);
  double tightest = INFINITY;
  for (int table = 0; table < 300; ++table) {
    std::vector<BhCurve::Point> points = {{0, 0}};
    for (int i = 0; i < 9; ++i) {
      const double rise = 0.1 * std::pow(10.0, decades(random) / 2);
      const double slope = std::min(5e3 * std::pow(10.0, decades(random)), 1 / mu0);
      points.push_back({points.back().h_A_per_m + rise * slope, points.back().b_T + rise});
    }
    const BhCurve curve(points);
    const double bound = 0.2 * smallest_secant(points);
    for (int i = 0; i <= 3000; ++i)
      tightest = std::min(tightest, curve.dh_db(points.back().b_T * i / 3000) / bound);
  }
  CHECK(tightest >= 1 - 1e-9);
  CHECK(tightest <
        2.5);  // the tables are ragged enough to come near the bound: 2.33 at a table's end by its proof
}

TEST_CASE("H(B) and its slope are continuous where the measured points end") {
  for (const std::optional<double> js : {std::optional<double>(), std::optional<double>(2.16)}) {
    const BhCurve curve(team13_points(), js);
    const double end = curve.last_b(), step = 1e-9;
    CHECK(curve.h(end + step) == near(curve.h(end), 1e-6));
    CHECK(curve.dh_db(end + step) == near(curve.dh_db(end), 1e-6));
    CHECK(curve.energy_density(end + step) == near(curve.energy_density(end), 1e-6));
  }
}

TEST_CASE("beyond the last point the polarization tends to the saturation it was given") {
  const BhCurve curve(team13_points(), 2.16);
  const double b = 1e4;  // J falls short by S c/H = 0.37 T * 1e4 A/m / 8e9 A/m < 1e-6
  CHECK(b - mu0 * curve.h(b) == near(2.16, 1e-6));
  CHECK(curve.saturation_polarization() == near(2.16, 1e-14));
}

TEST_CASE("without a given saturation the tail is the hyperbola J = Jn + s x/(1 + x/Hn)") {
  const BhCurve curve({{0, 0}, {1000, 1.0}});  // one secant: s = 1e-3 - mu0, Jn = 1 - 1000 mu0
  const double s = 1e-3 - mu0, x = 2500, j = 1 - 1000 * mu0 + s * x / (1 + x / 1000);
  CHECK(curve.h(mu0 * (1000 + x) + j) == near(1000 + x, 1e-13));
}

TEST_CASE("a table that ends full goes on with the slope of vacuum") {
  const BhCurve curve({{0, 0}, {1e3, 1}, {1e3 + 1 / mu0, 2}, {1e3 + 2 / mu0, 3}});
  CHECK(curve.dh_db(50) == near(1 / mu0, 1e-14));
  CHECK(curve.saturation_polarization() == near(1 - 1e3 * mu0, 1e-12));
}

TEST_CASE("a bad table is refused with the point that is wrong") {
  CHECK(words_of_refusal({{0, 0}}) == "a B-H table needs at least two points");
  CHECK(words_of_refusal({{0, 0.1}, {100, 1}}) ==
        "point 1 (H = 0 A/m, B = 0.1 T): the first point must be H = 0, B = 0");
  CHECK(words_of_refusal({{0, 0}, {100, 1}, {100, 1.1}}) ==
        "point 3 (H = 100 A/m, B = 1.1 T): H must rise; the point before has 100 A/m");
  CHECK(words_of_refusal({{0, 0}, {100, 1}, {200, 0.9}}) ==
        "point 3 (H = 200 A/m, B = 0.9 T): B must rise; the point before has 1 T");
  CHECK(words_of_refusal({{0, 0}, {NAN, 1}}) == "point 2 (H = nan A/m, B = 1 T): H must be a finite number");
  CHECK(words_of_refusal({{0, 0}, {1e6, 1}}) ==
        "point 2 (H = 1e+06 A/m, B = 1 T): the slope dB/dH from the point before is 0.796 mu0; it must be at "
        "least mu0 "
        "(2 % less is accepted as rounding)");
  CHECK(words_of_refusal({{0, 0}, {1000, 2}}, 1.5) ==
        "saturation_polarization_T = 1.5: must be above B - mu0 H = 1.998743362938564 T of the last point");
}

TEST_CASE("a last slope of 0.99 mu0, as rounding prints it, is accepted and taken as full") {
  const std::vector<BhCurve::Point> points = {{0, 0}, {1000, 1}, {1e5, 1.6}, {2e5, 1.6 + 0.99e5 * mu0}};
  REQUIRE(words_of_refusal(points) == "accepted");
  CHECK(BhCurve(points).dh_db(3) == near(1 / mu0, 1e-14));
}
