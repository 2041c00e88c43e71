// SPDX-License-Identifier: GPL-3.0-or-later
#include <cmath>

#include "materials/bad_material.hpp"
#include "materials/constants.hpp"
#include "tests/materials/every_law.hpp"
#include "tests/near.hpp"

using namespace coilpull;

namespace {

/// 1e-6 to 5 T, sixteen to a decade.
std::vector<double> many_flux_densities() {
  std::vector<double> all;
  for (int i = 0; i <= 107; ++i) all.push_back(1e-6 * std::pow(10.0, i / 16.0));
  all.back() = 5;
  return all;
}

/// int_0^b H dB by 5-point Gauss-Legendre on 2000 equal parts.
double integral_of_h(const SoftLaw& law, double b) {
  const double x[] = {0, 0.538469310105683091, 0.906179845938663993};
  const double w[] = {0.568888888888888889, 0.478628670499366468, 0.236926885056189088};
  const int parts = 2000;
  const double half = 0.5 * b / parts;
  double sum = 0;
  for (int i = 0; i < parts; ++i)
    for (int k = 0; k < 3; ++k)
      for (const double sign : {-1.0, 1.0})
        if (k > 0 || sign > 0) sum += w[k] * half * evaluate(law, half * (2 * i + 1 + sign * x[k])).h;
  return sum;
}

}  // namespace

TEST_CASE("every magnetic law is the derivative of its own energy") {
  for (const ListedLaw& entry : every_law())
    for (const double b : many_flux_densities()) {
      INFO(entry.name << " at B = " << b << " T");
      // Central difference: step^2 H''/(6 H) < 1e-6 for the sharpest knee listed, rounding 1e-16/1e-5 =
      // 1e-11.
      const double step = 1e-5 * b;
      const double slope =
          (evaluate(entry.law, b + step).energy_density - evaluate(entry.law, b - step).energy_density) /
          (2 * step);
      CHECK(evaluate(entry.law, b).h == near(slope, 1e-6));
    }
}

TEST_CASE("the slope of every magnetic law is the derivative of its H(B)") {
  for (const ListedLaw& entry : every_law())
    for (const double b : many_flux_densities()) {
      INFO(entry.name << " at B = " << b << " T");
      // A measured curve has a kinked slope at its points: step times the jump of H'' there, relative 1e-4 at
      // most.
      const double step = 1e-7 * b;
      const double slope = (evaluate(entry.law, b + step).h - evaluate(entry.law, b - step).h) / (2 * step);
      CHECK(evaluate(entry.law, b).dh_db == near(slope, 1e-4));
    }
}

TEST_CASE("the energy of every magnetic law is the integral of its H(B) from zero") {
  for (const ListedLaw& entry : every_law())
    for (const double b : {1e-6, 0.03, 0.7, 1.4, 1.9, 2.6, 5.0}) {
      INFO(entry.name << " at B = " << b << " T");
      // 1e-6: kinks of H' at measured points and the hard knees fall inside one of the 2000 parts.
      CHECK(evaluate(entry.law, b).energy_density == near(integral_of_h(entry.law, b), 1e-6));
    }
}

TEST_CASE("what the solver asks of a law without its energy is what the whole point says") {
  for (const ListedLaw& entry : every_law())
    for (const double b : many_flux_densities()) {
      INFO(entry.name << " at B = " << b << " T");
      const LawPoint point = evaluate(entry.law, b);
      const FieldPoint field = std::visit([&](const auto& law) { return law.field(b); }, entry.law);
      CHECK(field.h == near(point.h, 1e-15));
      CHECK(field.dh_db == near(point.dh_db, 1e-15));
      CHECK(std::visit([&](const auto& law) { return law.energy_density(b); }, entry.law) ==
            near(point.energy_density, 1e-15));
    }
}

TEST_CASE("H(B) returns the B it was asked for, to the last digits") {
  for (const ListedLaw& entry : every_law()) {
    if (!entry.polarization) continue;
    for (const double scale : {1e-14, 1e-6, 1.0, 200.0})
      for (const double fraction : many_flux_densities()) {
        const double b = scale * fraction;
        INFO(entry.name << " at B = " << b << " T");
        const auto h = static_cast<long double>(evaluate(entry.law, b).h);
        const auto back = static_cast<double>(static_cast<long double>(mu0) * h + entry.polarization(h));
        CHECK(back == near(b, 2e-15));  // nine roundings of 1.1e-16 each, times two
      }
  }
}

TEST_CASE("every magnetic law is strictly convex and never less permeable than a third of vacuum") {
  // Smooth laws: dH/dB <= 1/mu0. A measured curve may overshoot between points, but not its secants
  // threefold.
  for (const ListedLaw& entry : every_law()) {
    double h_before = 0, w_before = 0;
    for (const double b : many_flux_densities()) {
      INFO(entry.name << " at B = " << b << " T");
      const LawPoint at = evaluate(entry.law, b);
      CHECK(at.h > h_before);
      CHECK(at.energy_density > w_before);
      CHECK(at.dh_db > 0);
      CHECK(at.dh_db <= (std::holds_alternative<BhCurve>(entry.law) ? 3 : 1 + 1e-12) / mu0);
      h_before = at.h, w_before = at.energy_density;
    }
  }
}

TEST_CASE("every magnetic law is a straight line through zero at vanishing B") {
  for (const ListedLaw& entry : every_law()) {
    INFO(entry.name);
    const LawPoint zero = evaluate(entry.law, 0);
    CHECK(zero.h == 0);
    CHECK(zero.energy_density == 0);
    const double b = 1e-12;  // the next term is smaller by B/Js = 1e-12 times the curvature
    const LawPoint tiny = evaluate(entry.law, b);
    CHECK(tiny.dh_db == near(zero.dh_db, 1e-8));  // a parabola's 2 nu B/(mu0 mu_i^2): 2e-9 for the steepest
    CHECK(tiny.h == near(zero.dh_db * b, 1e-9));
    CHECK(tiny.energy_density == near(0.5 * zero.dh_db * b * b, 1e-9));
  }
}

TEST_CASE("a saturable law gains nothing but mu0 H at a thousand tesla") {
  for (const ListedLaw& entry : every_law()) {
    if (is_linear(entry.law)) continue;
    INFO(entry.name);
    const double b = 1000;
    const LawPoint at = evaluate(entry.law, b);
    CHECK(at.dh_db == near(1 / mu0, 1e-4));  // dJ/dH = Js Ha/H^2 < 4e-5 mu0 for the widest law listed
    const double j = b - mu0 * at.h;
    CHECK(j > 0);
    CHECK(j < 3);
    // w = int H dB = (B^2 - ...)/(2 mu0) - int J dB/mu0 and 0 < J < 3 T
    CHECK(at.energy_density < 0.5 * b * b / mu0);
    CHECK(at.energy_density > 0.5 * b * b / mu0 - 3 * b / mu0);
  }
}

TEST_CASE(
    "the energies of the hyperbolic, Langevin and arctangent laws equal their printed forms at the knee") {
  // The printed forms lose no digits here; the ones in the code are arranged for small fields.
  const double js = 2.1, ha = 800, h = 900;
  CHECK(FroehlichLaw(js, ha).energy_density(mu0 * h + js * h / (h + ha)) ==
        near(0.5 * mu0 * h * h + js * ha * (std::log(1 + h / ha) - h / (h + ha)), 1e-14));
  const double x = h / ha, l = 1 / std::tanh(x) - 1 / x;
  CHECK(LangevinLaw(js, ha).energy_density(mu0 * h + js * l) ==
        near(0.5 * mu0 * h * h + js * ha * (x * l - std::log(std::sinh(x) / x)), 1e-14));
  const double chi0 = 2000, k = pi * chi0 * mu0 / (2 * js), y = k * h;
  CHECK(ArctangentLaw(js, chi0).energy_density(mu0 * h + 2 * js / pi * std::atan(y)) ==
        near(0.5 * mu0 * h * h + js / (pi * k) * std::log(1 + y * y), 1e-14));
}

TEST_CASE("small-field and large-field forms of the Langevin and hyperbolic energies meet") {
  // The forms change at H = a and at H = Ha/2: energy over B^2 must pass there without a step.
  const LangevinLaw langevin(2.1, 100);
  const double b_langevin = mu0 * 100 + 2.1 * (1 / std::tanh(1.0) - 1);
  const FroehlichLaw froehlich(2.1, 100);
  const double b_froehlich = mu0 * 50 + 2.1 / 3;
  const double step = 1e-12;  // w grows by 2 step (within 2) across the change, rounding 1e-15
  const auto rise = [&](const auto& law, double b) {
    return law.energy_density(b * (1 + step)) / law.energy_density(b * (1 - step)) - 1;
  };
  CHECK(rise(langevin, b_langevin) > 0);
  CHECK(rise(langevin, b_langevin) < 1e-11);
  CHECK(rise(froehlich, b_froehlich) > 0);
  CHECK(rise(froehlich, b_froehlich) < 1e-11);
}

TEST_CASE("the tail of the exponential law starts where its permeability has fallen to vacuum's") {
  // data/published/nonlinear_ellipsoids.csv, first line, ten digits.
  const BrauerLaw law(0.5, 2.8, 300);
  CHECK(law.saturation_flux_density() == near(1.993996387, 1e-9));
  CHECK(law.h(law.saturation_flux_density()) == near(68774.62530, 1e-9));
  CHECK(law.dh_db(law.saturation_flux_density()) == near(1 / mu0, 1e-13));
  CHECK(law.saturation_polarization() == near(1.907571644, 1e-9));
}

TEST_CASE("only the straight law is linear") {
  for (const ListedLaw& entry : every_law()) {
    INFO(entry.name);
    CHECK(is_linear(entry.law) == (entry.name == "linear, mu_r 1000"));
  }
}

TEST_CASE("a law refuses parameters that no material has") {
  CHECK_THROWS_WITH_AS(LinearLaw(0.5), "mu_r = 0.5: must be a finite number of at least 1", BadMaterial);
  CHECK_THROWS_WITH_AS(FroehlichLaw(-2.1, 500),
                       "saturation_polarization_T = -2.1: must be a finite number above 0", BadMaterial);
  CHECK_THROWS_WITH_AS(FroehlichLaw(2.1, 0), "half_field_A_per_m = 0: must be a finite number above 0",
                       BadMaterial);
  CHECK_THROWS_WITH_AS(LangevinLaw(2.1, std::nan("")),
                       "shape_field_A_per_m = nan: must be a finite number above 0", BadMaterial);
  CHECK_THROWS_WITH_AS(ArctangentLaw(2.1, -1), "initial_susceptibility = -1: must be a finite number above 0",
                       BadMaterial);
  CHECK_THROWS_WITH_AS(BrauerLaw(0.5, -2.8, 300), "k2 = -2.8: must be a finite number above 0", BadMaterial);
  CHECK_THROWS_WITH_AS(
      BrauerLaw(0.5, 2.8, 8e5),
      "k1 = 0.5 and k3 = 8e+05: the sum must be below 1/mu0 = 795775 A/(T m), else the permeability "
      "is below mu0",
      BadMaterial);
}
