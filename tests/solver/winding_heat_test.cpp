// SPDX-License-Identifier: GPL-3.0-or-later
#include "solver/heat/winding_heat.hpp"

#include <cmath>

#include "materials/constants.hpp"
#include "tests/near.hpp"

namespace coilpull {
namespace {

/// Ten metres of 0.71 mm copper: 180 turns of the example pusher need about as much.
HeatedWinding ten_metres() { return heated_winding(Metal::copper, 0.71e-3, 10, 4e-3); }

constexpr StiffSource ten_ampere{std::nullopt, 10, 0};

}  // namespace

TEST_CASE("copper at a held current heats as IEC 60028 and its heat capacity say, whatever the length") {
  // Both sides in one line for a wire of 1 mm^2: rho(T) j^2 dt = density c dT with rho20 = 1/58 ohm mm^2/m
  // and 0.00393/K (IEC 60028), c = 385 J/(kg K), so t = density c / (rho20 alpha j^2) ln(rho1 / rho0). The
  // tree rounds rho20 to 1.7241e-8, five digits: tolerance.
  const double j = 10e6, density = 8890, c = 385, rho20 = 1e-6 / 58, alpha = 0.00393;
  const double expected =
      density * c / (rho20 * alpha * j * j) * std::log((1 + alpha * 110) / (1 + alpha * 20));
  const double diameter = 2e-3 / std::sqrt(3.14159265358979323846 * 1.0);  // 1 mm^2: r = 1 mm / sqrt(pi)
  for (const double length : {1.0, 7.0}) {
    const HeatedWinding wire = heated_winding(Metal::copper, diameter, length, 1);
    const double section = 1e-6;
    CHECK(heating_time_s(wire, StiffSource{std::nullopt, j * section, 0}, 40, 130) == near(expected, 3e-5));
  }
}

TEST_CASE(
    "heating times are the integral of stored over generated heat, taken by a sum over the temperature") {
  // From capacity dT = i^2 R dt alone, with R = rho20 (1 + alpha (T - 20)) length / section of IEC 60028 and
  // i = U / (R + s) or held: no formula of the tree. The tree rounds rho20 to five digits: tolerance;
  // Simpson's rule over 1000 intervals leaves far less.
  const double rho20 = 1e-6 / 58, alpha = 0.00393, density = 8890, c = 385, length = 10, diameter = 0.71e-3;
  const double section = 3.14159265358979323846 / 4 * diameter * diameter,
               capacity = c * density * section * length;
  const auto ohm = [&](double degC) { return rho20 * (1 + alpha * (degC - 20)) * length / section; };
  const auto seconds = [&](const auto& current, double from, double to) {
    constexpr int intervals = 1000;
    const double h = (to - from) / intervals;
    double sum = 0;
    for (int k = 0; k <= intervals; ++k) {
      const double degC = from + k * h, i = current(degC);
      sum += (k == 0 || k == intervals ? 1 : k % 2 ? 4 : 2) * capacity / (i * i * ohm(degC));
    }
    return sum * h / 3;
  };
  for (const double degC : {60.0, 130.0, 300.0}) {
    CHECK(heating_time_s(ten_metres(), ten_ampere, 20, degC) ==
          near(seconds([](double) { return 10.0; }, 20, degC), 3e-5));
    CHECK(heating_time_s(ten_metres(), StiffSource{5, std::nullopt, 0.35}, 20, degC) ==
          near(seconds([&](double at) { return 5 / (ohm(at) + 0.35); }, 20, degC), 3e-5));
  }
}

TEST_CASE(
    "the heat capacity of copper is what lattice vibrations and expansion make of it, and rises slowly") {
  // Debye: Cv = 9 R (T / theta)^3 integral from 0 to theta / T of x^4 e^x / (e^x - 1)^2 dx; Cp - Cv = 9 a^2 V
  // B T (thermodynamics). For copper theta = 315 K near room temperature, expansion a = 16.5e-6 / K, molar
  // volume V = 7.11e-6 m^3, bulk modulus B = 137 GPa, 63.546 g/mol (from memory). The model is good to about
  // 1 %.
  const auto specific = [](double kelvin) {
    constexpr int intervals = 400;
    const double end = 315 / kelvin, h = end / intervals;
    double sum = 0;
    for (int k = 1; k <= intervals; ++k) {  // midpoint rule of a smooth function
      const double x = (k - 0.5) * h, e = std::exp(x);
      sum += x * x * x * x * e / ((e - 1) * (e - 1)) * h;
    }
    const double cv = 9 * 8.314462618 * sum / (end * end * end);
    return (cv + 9 * 16.5e-6 * 16.5e-6 * 7.11e-6 * 137e9 * kelvin) / 0.063546;
  };
  CHECK(heat_capacity(Metal::copper) == near(specific(293), 0.01));
  // What holding it constant leaves out of the time to 155 degC: it grows by less than 5 % on the way, so the
  // time by less than 3 %, and the tree's winding is hotter than the true one, never cooler.
  constexpr int steps = 270;
  double grown = 0, constant = 0;
  for (int k = 0; k < steps; ++k) {
    const double degC = 20 + (k + 0.5) * 135.0 / steps, weight = 1 / (1 + 0.00393 * (degC - 20));
    grown += weight * specific(degC + 273.15) / specific(293.15);
    constant += weight;
  }
  CHECK(grown / constant > 1);
  CHECK(grown / constant < 1.03);
}

TEST_CASE("copper heats as Onderdonk's formula says, and the form of IEC 60949 that has the same letters") {
  // (I/S)^2 t = K^2 ln((Tf + beta)/(Ti + beta)), K^2 = c_v (beta + 20) / rho20: the integral of the case
  // above. Handed down, all from memory: Onderdonk 33 (I/A)^2 t = log10(1 + rise / (234 + Ti)), A in circular
  // mils of (25.4e-3 mm)^2 pi/4, which is K = 226.4 A s^0.5/mm^2; IEC 60949 K = 226 from c_v = 3.45 MJ/(K
  // m^3), beta = 234.5. Ours takes c_v = 8890 * 385 = 3.42 MJ/(K m^3) and makes K 224.8: 1.5 % less time.
  const double section_mm2 = pi / 4 * 0.71 * 0.71;
  const double mil_mm2 = pi / 4 * 25.4e-3 * 25.4e-3,
               onderdonk = std::sqrt(1 / (33 * std::log(10.0))) / mil_mm2;
  const double iec = 1e-6 * std::sqrt(3.45e6 * (234.5 + 20) / 1.7241e-8);
  CHECK(onderdonk == near(226.4, 1e-4));  // to its last digit
  CHECK(iec == near(226, 2e-3));          // likewise
  for (const double ampere : {5.0, 50.0, 500.0})
    for (const double degC : {60.0, 130.0, 300.0})
      for (const double K : {onderdonk, iec}) {
        const double expected =
            K * K * section_mm2 * section_mm2 / (ampere * ampere) * std::log((degC + 234) / (20 + 234));
        CHECK(heating_time_s(ten_metres(), StiffSource{std::nullopt, ampere, 0}, 20, degC) ==
              near(expected, 0.017));
      }
}

TEST_CASE("temperature after a time is the inverse of the time to a temperature, for every kind of supply") {
  const HeatedWinding winding = ten_metres();
  for (const StiffSource& source : {ten_ampere, StiffSource{12, std::nullopt, 0.3},
                                    StiffSource{12, std::nullopt, 0}, StiffSource{12, 20, 0.05}})
    for (const double degC : {21.0, 80.0, 155.0}) {
      const double seconds = heating_time_s(winding, source, 20, degC);
      // Bisection to 1e-12 of the temperature, of a rise of one kelvin and more.
      CHECK(heated_degC(winding, source, 20, seconds) == near(degC, 1e-9));
    }
}

TEST_CASE("at the first instant a winding warms by i^2 R / capacity") {
  const HeatedWinding winding = ten_metres();
  const double rate = 100 * winding.ohm_at(20) / winding.capacity, short_s = 1e-4;
  // After so short a time the resistance has risen by less than 1e-5 of itself.
  CHECK(heated_degC(winding, ten_ampere, 20, short_s) - 20 == near(rate * short_s, 1e-5));
}

TEST_CASE("a voltage behind a limit heats as the limit until the resistance throttles it") {
  const HeatedWinding winding = ten_metres();
  const StiffSource both{12, 10, 0};
  const double turn_degC = 20 + (12.0 / 10 / winding.ohm_20 - 1) / winding.alpha_per_K;
  REQUIRE(turn_degC > 100);
  const double to_turn = heating_time_s(winding, both, 20, turn_degC);
  CHECK(to_turn == near(heating_time_s(winding, ten_ampere, 20, turn_degC), 1e-12));  // the same formula
  CHECK(heating_time_s(winding, both, 20, turn_degC + 50) - to_turn ==
        near(heating_time_s(winding, StiffSource{12, std::nullopt, 0}, turn_degC, turn_degC + 50), 1e-9));
}

TEST_CASE("a capacitor into a winding that hardly warms decays exponentially") {
  HeatedWinding winding = ten_metres();
  winding.capacity = 1e9;  // so that its resistance stays
  const double ohm = winding.ohm_at(20) + 0.2, farad = 5e-3, tau = ohm * farad;
  const Discharge end = discharge(winding, {50, farad, 0.2}, 20, tau);
  CHECK(end.volts_left == near(50 * std::exp(-1), 1e-7));  // Runge-Kutta of order 4, steps of tau / 50
  CHECK(end.square_A2s == near(50 * 50 / (ohm * ohm) * tau / 2 * (1 - std::exp(-2)), 1e-7));
}

TEST_CASE("an emptied capacitor leaves its energy in winding and series resistance") {
  const HeatedWinding winding = ten_metres();
  const RunningDown source{100, 20e-3, 0.2};
  const double hot = emptied_degC(winding, source, 20);
  // Two ways to the same end: balance of energy, and the current followed in time for forty decays.
  CHECK(discharge(winding, source, 20, 1e3).degC == near(hot, 1e-6));
  CHECK(emptied_degC(winding, {100, 20e-3, 0}, 20) - 20 ==
        near(0.5 * 20e-3 * 1e4 / winding.capacity, 1e-9));  // without series resistance all of it
  CHECK_FALSE(heating_time_s(winding, source, 20, hot + 1).has_value());
  for (const double part : {0.5, 0.9, 0.9999}) {  // the last after five decays
    const double degC = 20 + part * (hot - 20);
    const auto seconds = heating_time_s(winding, source, 20, degC);
    REQUIRE(seconds.has_value());
    CHECK(discharge(winding, source, 20, *seconds).degC == near(degC, 1e-9));
  }
}

TEST_CASE("strokes settle where the surface gives off what they bring, and run away where it cannot") {
  const HeatedWinding winding = ten_metres();
  const double per_stroke_J = 1.2;
  const auto constant = [&](double) { return per_stroke_J; };
  const auto settled = steady_degC(winding, constant, 0.5, 10, 25);
  REQUIRE(settled.has_value());
  CHECK(*settled == near(25 + per_stroke_J * 0.5 / (10 * winding.surface), 1e-9));  // closed form
  const auto growing = [&](double degC) { return winding.ohm_at(degC); };  // a held current of 1 A for 1 s
  // Runs away when the strokes' heat grows faster than cooling: ohm_20 alpha rate > cooling surface.
  const double edge = 10 * winding.surface / (winding.ohm_20 * winding.alpha_per_K);
  CHECK(steady_degC(winding, growing, 0.5 * edge, 10, 25).has_value());
  CHECK_FALSE(steady_degC(winding, growing, 1.01 * edge, 10, 25).has_value());
}

}  // namespace coilpull
