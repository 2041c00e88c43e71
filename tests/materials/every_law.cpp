// SPDX-License-Identifier: GPL-3.0-or-later
#include "tests/materials/every_law.hpp"

#include <cmath>

#include "materials/catalogue.hpp"
#include "materials/constants.hpp"
#include "tests/read_csv.hpp"

namespace coilpull {

namespace {

using Polarization = std::function<long double(long double)>;

Polarization froehlich(long double js, long double ha) {
  return [=](long double h) { return js * h / (h + ha); };
}

/// coth x - 1/x, by its series (NIST DLMF 4.33 with the Bernoulli numbers) where the difference would lose
/// digits.
Polarization langevin(long double js, long double a) {
  return [=](long double h) {
    const long double x = h / a, y = x * x;
    if (x > 0.1L) return js * (1 / std::tanh(x) - 1 / x);
    const long double c[] = {1.0L / 3,     -1.0L / 45,   2.0L / 945,
                             -1.0L / 4725, 2.0L / 93555, -1382.0L / 638512875};
    return js * x * (c[0] + y * (c[1] + y * (c[2] + y * (c[3] + y * (c[4] + y * c[5])))));
  };
}

Polarization arctangent(long double js, long double chi0) {
  const long double pi_l = 3.141592653589793238462643383279502884L;
  return [=](long double h) { return 2 * js / pi_l * std::atan(pi_l * chi0 * mu0 * h / (2 * js)); };
}

}  // namespace

std::vector<ListedLaw> laws_of_published_cases() {
  const double js = 2.1, chi0 = 2000;
  return {
      {"froehlich Js=2.1 chi0=2000", FroehlichLaw(js, js / (chi0 * mu0)), froehlich(js, js / (chi0 * mu0))},
      {"arctan Js=2.1 chi0=2000", ArctangentLaw(js, chi0), arctangent(js, chi0)},
      {"langevin Js=2.1 chi0=2000", LangevinLaw(js, js / (3 * chi0 * mu0)),
       langevin(js, js / (3 * chi0 * mu0))},
      {"brauer k1=0.5 k2=2.8 k3=300 with tail", BrauerLaw(0.5, 2.8, 300), {}},
  };
}

std::vector<ListedLaw> every_law() {
  std::vector<ListedLaw> laws = laws_of_published_cases();
  laws.push_back(
      {"linear, mu_r 1000", LinearLaw(1000), [](long double h) { return 999 * (long double)mu0 * h; }});
  laws.push_back({"weak froehlich", FroehlichLaw(0.3, 1e5), froehlich(0.3L, 1e5L)});
  laws.push_back({"hard knee froehlich", FroehlichLaw(2.4, 1), froehlich(2.4L, 1)});
  laws.push_back({"steep langevin", LangevinLaw(1.5, 5), langevin(1.5L, 5)});
  laws.push_back({"steep arctangent", ArctangentLaw(1.6, 50000), arctangent(1.6L, 50000)});
  laws.push_back({"brauer, cast steel", BrauerLaw(49.4, 1.46, 520.6), {}});
  laws.push_back({"curve of TEAM 13, free tail", BhCurve(team13_points()), {}});
  laws.push_back({"curve of TEAM 13, tail to 2.16 T", BhCurve(team13_points(), 2.16), {}});
  laws.push_back({"curve with a sharp corner", BhCurve({{0, 0}, {50, 1.5}, {5e4, 1.7}, {1e5, 1.77}}), {}});
  laws.push_back({"curve that is full at its end",
                  BhCurve({{0, 0}, {1e3, 1}, {1e3 + 1 / mu0, 2}, {1e3 + 2 / mu0, 3}}),
                  {}});
  laws.push_back(
      {"brauer with a tail to 2.05 T", BrauerLaw(3.8, 2.17, 396.2, BrauerLaw::Tail{1.6, 2.05}), {}});
  laws.push_back({"curve with a parabola at its start",
                  BhCurve({{0, 0}, {132, 0.5}, {318, 0.9}, {1353, 1.4}}, 2.1, 250),
                  {}});
  const Catalogue catalogue = standard_catalogue();
  for (const std::string& name : catalogue.steel_names())
    laws.push_back({name, catalogue.steel(name).law, {}});
  return laws;
}

std::vector<BhCurve::Point> team13_points() {
  const CsvFile table = read_csv("data/published/bh_team10_13_steel.csv");
  std::vector<BhCurve::Point> points;
  for (std::size_t i = 0; i < table.records.size(); ++i)
    points.push_back({table.number_at(i, "H_A_per_m"), table.number_at(i, "B_T")});
  return points;
}

}  // namespace coilpull
