// SPDX-License-Identifier: GPL-3.0-or-later
#include "materials/fit_law.hpp"

#include <algorithm>
#include <cmath>

#include "materials/bad_material.hpp"
#include "tests/materials/every_law.hpp"
#include "tests/near.hpp"

using namespace coilpull;

namespace {

std::vector<BhCurve::Point> points_of(const SoftLaw& law) {
  std::vector<BhCurve::Point> points = {{0, 0}};
  for (const double h : {50.0, 120.0, 300.0, 700.0, 2000.0, 6000.0, 2e4, 6e4})
    points.push_back({h, flux_density(law, h)});
  return points;
}

double number(const LawFit& fit, const char* key) { return fit.numbers.numbers.at(key); }

}  // namespace

TEST_CASE("a law fitted to points of its own kind has the numbers that made them") {
  // Nothing is left but rounding and the differences that stand for derivatives.
  const LawFit froehlich = fit_law("froehlich", points_of(FroehlichLaw(2.05, 640)));
  CHECK(number(froehlich, "saturation_polarization_T") == near(2.05, 1e-8));
  CHECK(number(froehlich, "half_field_A_per_m") == near(640, 1e-7));
  const LawFit langevin = fit_law("langevin", points_of(LangevinLaw(1.9, 210)));
  CHECK(number(langevin, "saturation_polarization_T") == near(1.9, 1e-8));
  CHECK(number(langevin, "shape_field_A_per_m") == near(210, 1e-7));
  const LawFit arctangent = fit_law("arctangent", points_of(ArctangentLaw(1.7, 3000)));
  CHECK(number(arctangent, "saturation_polarization_T") == near(1.7, 1e-8));
  CHECK(number(arctangent, "initial_susceptibility") == near(3000, 1e-7));
  const LawFit brauer = fit_law("brauer", points_of(BrauerLaw(3.8, 2.17, 396.2)));
  CHECK(number(brauer, "k1") == near(3.8, 1e-5));
  CHECK(number(brauer, "k2") == near(2.17, 1e-6));
  CHECK(number(brauer, "k3") == near(396.2, 1e-6));
  for (const LawFit* fit : {&froehlich, &langevin, &arctangent, &brauer}) {
    CHECK(fit->settled);
    CHECK(fit->largest_T < 1e-8);
  }
}

TEST_CASE(
    "the residuals of a fit are the law less the points, and no nudge of its numbers makes them smaller") {
  const std::vector<BhCurve::Point> points = team13_points();
  for (const std::string& law : laws_to_fit()) {
    INFO(law);
    const LawFit fit = fit_law(law, points);
    CHECK(fit.settled);
    CHECK(fit.largest_T > fit.rms_T);
    CHECK(fit.residual_T[10] == near(flux_density(fit.law, points[10].h_A_per_m) - points[10].b_T, 1e-12));
    for (const auto& [key, value] : fit.numbers.numbers)
      for (const double factor : {0.99, 1.01}) {
        LawNumbers nudged = fit.numbers;
        nudged.numbers[key] *= factor;
        const SoftLaw other = make_law(nudged);
        double sum = 0;
        for (const auto& [h, b] : points) sum += std::pow(flux_density(other, h) - b, 2);
        CHECK(std::sqrt(sum / static_cast<double>(points.size())) > fit.rms_T);
      }
  }
}

TEST_CASE("what cannot be fitted is refused") {
  CHECK_THROWS_WITH_AS(fit_law("linear", team13_points()),
                       "law = \"linear\": cannot be fitted. Allowed: froehlich, langevin, arctangent, brauer",
                       BadMaterial);
  CHECK_THROWS_WITH_AS(fit_law("brauer", {{0, 0}, {100, 1}, {200, 1.2}}),
                       "law = \"brauer\": needs at least 3 points above zero", BadMaterial);
}
