// SPDX-License-Identifier: GPL-3.0-or-later
#include "materials/smooth_curve.hpp"

#include <doctest/doctest.h>

#include <cmath>
#include <random>

#include "materials/bad_material.hpp"
#include "materials/constants.hpp"
#include "materials/magnetic_law.hpp"
#include "tests/near.hpp"

using namespace coilpull;

TEST_CASE("points that have the shape of a curve are left where they are by smoothing") {
  // A Froehlich curve is concave all over: rounding of the least squares is all that moves it.
  const FroehlichLaw law(2.0, 400);
  std::vector<BhCurve::Point> points = {{0, 0}};
  for (double h = 20; h < 1e5; h *= 1.6) points.push_back({h, flux_density(law, h)});
  const std::vector<BhCurve::Point> smooth = smoothed(points);
  CHECK(smooth[0].b_T == 0);
  for (std::size_t i = 1; i < points.size(); ++i) CHECK(smooth[i].b_T == near(points[i].b_T, 1e-7));
}

TEST_CASE(
    "smoothing takes noise out: the curve rises like one and is nearer to the truth than its points were") {
  // An S-shaped curve with 15 mT of noise, enough to make points fall and repeat; invented.
  const auto truth = [](double h) {
    return mu0 * h + 1.9 * std::pow(h / 300, 2) / (1 + std::pow(h / 300, 2));
  };
  std::mt19937 random(7);
  std::normal_distribution<double> noise(0, 0.015);
  std::vector<BhCurve::Point> points = {{0, 0}};
  for (double h = 10; h < 4e4; h *= 1.15) points.push_back({h, truth(h) + noise(random)});
  const std::vector<BhCurve::Point> smooth = smoothed(points);
  double before = 0, after = 0;
  int turns = 0;
  double last_slope = 0;
  bool falling = false;
  for (std::size_t i = 1; i < points.size(); ++i) {
    before += std::pow(points[i].b_T - truth(points[i].h_A_per_m), 2);
    after += std::pow(smooth[i].b_T - truth(points[i].h_A_per_m), 2);
    const double slope =
        (smooth[i].b_T - smooth[i - 1].b_T) / (smooth[i].h_A_per_m - smooth[i - 1].h_A_per_m);
    CHECK(slope >= mu0 * (1 - 1e-6));
    const bool falls = slope < last_slope * (1 - 1e-6) - 1e-12;
    if (falls != falling) ++turns;
    falling = falling || falls;
    if (falling) CHECK(slope <= last_slope * (1 + 1e-6) + 1e-12);  // once it falls, it does not rise again
    last_slope = slope;
  }
  CHECK(after <
        0.5 * before);  // 58 points, a dozen or so free slopes are left: a quarter of the noise is expected
  CHECK_NOTHROW(BhCurve{smooth});
}

TEST_CASE("more points than can be smoothed in seconds are refused with what to do") {
  std::vector<BhCurve::Point> points;
  for (int i = 0; i <= 400; ++i) points.push_back({i * 10.0, i * 1e-3});
  CHECK_THROWS_WITH_AS(smoothed(points), doctest::Contains("keep every second"), BadMaterial);
}
