// SPDX-License-Identifier: GPL-3.0-or-later
#include <cmath>
#include <functional>
#include <limits>
#include <random>
#include <stdexcept>
#include <vector>

#include "materials/constants.hpp"
#include "solver/motion/fit_coenergy.hpp"
#include "tests/near.hpp"

namespace coilpull {
namespace {

constexpr double length = 4e-3, hold = 0.05, self = 2e-3, mutual = 6e-3, full = 3;

/// An invented device: a magnet that the steel holds at z = 0, an inductance that saturates, both coupled.
///   W' = hold exp(-s^2) + mutual i exp(-s^2/2) + self full^2 ln cosh(i/full) (2 + exp(-s^2)),   s = z/length
CoenergyPoint invented(double z, double i) {
  const double s = z / length, g = std::exp(-s * s), h = std::exp(-s * s / 2);
  const double gz = -2 * s * g / length, hz = -s * h / length;
  const double magnetised = self * full * full * std::log(std::cosh(i / full));
  const double flux = self * full * std::tanh(i / full);
  CoenergyPoint at{};
  at.coenergy_J = hold * g + mutual * i * h + magnetised * (2 + g);
  at.force_N = hold * gz + mutual * i * hz + magnetised * gz;
  at.linkage_Wb = mutual * h + flux * (2 + g);
  at.force_per_ampere = mutual * hz + flux * gz;
  at.inductance_H = self / std::pow(std::cosh(i / full), 2) * (2 + g);
  return at;
}

using KnownCoenergy = std::function<CoenergyPoint(double, double)>;

/// Rows every 0.5 mm of -10 to 10 mm and every 0.5 A of -4 to 4 A, with bars of 1e-5 N and 1e-8 Wb.
std::vector<CoenergyRow> rows_of(const KnownCoenergy& device) {
  std::vector<CoenergyRow> rows;
  for (int k = -20; k <= 20; ++k)
    for (int l = -8; l <= 8; ++l) {
      const double z = 0.5e-3 * k, i = 0.5 * l;
      const CoenergyPoint at = device(z, i);
      rows.push_back({z, i, {at.force_N, 1e-5}, {at.linkage_Wb, 1e-8}, at.coenergy_J});
    }
  return rows;
}

const CoenergyFit& invented_fit() {
  static const CoenergyFit fit = fit_coenergy(rows_of(invented));
  return fit;
}

}  // namespace

TEST_CASE("a coenergy function meets every row within its bar and the device between them") {
  const CoenergyFit& fit = invented_fit();
  CHECK(fit.within_bars());
  CHECK(fit.coenergy.bars < 1);
  for (const double z : {-7.3e-3, -0.2e-3, 3.77e-3})
    for (const double i : {-3.3, 0.2, 2.71}) {
      const CoenergyPoint seen = fit.function.at(z, i), is = invented(z, i);
      // held against what is largest: 17 N, 22 mWb, 2.0 N/A and 6 mH; a step is an eighth of the magnet's
      // length
      CHECK(std::abs(seen.force_N - is.force_N) < 1e-4 * 17);
      CHECK(std::abs(seen.linkage_Wb - is.linkage_Wb) < 1e-4 * 22e-3);
      CHECK(std::abs(seen.force_per_ampere - is.force_per_ampere) < 5e-3 * 2.0);
      CHECK(std::abs(seen.inductance_H - is.inductance_H) < 5e-3 * 6e-3);
    }
}

TEST_CASE("force and linkage are the slopes of one coenergy, inside the range and beyond it") {
  const CoenergyFunction& w = invented_fit().function;
  const double dz = 1e-7, di = 1e-4;  // far out, rounding of W' leaves 1e-5 of these differences
  for (const double z : {-11e-3, -3.1e-3, 0.6e-3, 12e-3})
    for (const double i : {-5.5, 0.6, 3.9, 6.}) {
      INFO("z = " << z << " m, i = " << i << " A");
      const CoenergyPoint at = w.at(z, i);
      const auto along_z = [&](double CoenergyPoint::*what) {
        return (w.at(z + dz, i).*what - w.at(z - dz, i).*what) / (2 * dz);
      };
      const auto along_i = [&](double CoenergyPoint::*what) {
        return (w.at(z, i + di).*what - w.at(z, i - di).*what) / (2 * di);
      };
      CHECK(along_z(&CoenergyPoint::coenergy_J) == near(at.force_N, 1e-4));
      CHECK(along_i(&CoenergyPoint::coenergy_J) == near(at.linkage_Wb, 1e-4));
      CHECK(std::abs(along_z(&CoenergyPoint::force_N) - at.force_slope) < 1e-5 * 6e3);  // peak, N/m
      CHECK(along_i(&CoenergyPoint::force_N) == near(at.force_per_ampere, 1e-4));
      CHECK(along_z(&CoenergyPoint::linkage_Wb) == near(at.force_per_ampere, 1e-4));
      CHECK(along_i(&CoenergyPoint::linkage_Wb) == near(at.inductance_H, 1e-4));
    }
}

TEST_CASE("slope of the force and inductance do not jump at a knot, nor at the edge of the range") {
  const CoenergyFunction& w = invented_fit().function;
  const double z_step = 1e-12, i_step = 1e-9;  // on either side: what is continuous changes by 1e-6 at most
  for (const double z : {-10e-3, 0.5e-3, 0.75e-3, 10e-3})
    CHECK(w.at(z + z_step, 1.3).force_slope == near(w.at(z - z_step, 1.3).force_slope, 1e-6));
  for (const double i : {-4., 0.25, 1.5, 4.})
    CHECK(w.at(1.3e-3, i + i_step).inductance_H == near(w.at(1.3e-3, i - i_step).inductance_H, 1e-6));
  CHECK(w.covers(10e-3, 4));
  CHECK_FALSE(w.covers(10e-3 + z_step, 4));
  CHECK_FALSE(w.covers(10e-3, -4 - i_step));
}

TEST_CASE("a closed cycle of displacement and current gives back all its energy") {
  // closed integral of F dz + linkage di: an ellipse that leaves the range; the trapezoidal rule over a
  // period converges faster than any power for what is smooth, here 1e-6 for what has four derivatives
  const CoenergyFunction& w = invented_fit().function;
  double sum = 0, paid = 0;
  const int steps = 4000;
  for (int k = 0; k < steps; ++k) {
    const double t = 2 * pi * k / steps, turn = 2 * pi / steps;
    const CoenergyPoint at = w.at(11e-3 * std::cos(t), 5 * std::sin(t));
    const double work = (-at.force_N * 11e-3 * std::sin(t) + at.linkage_Wb * 5 * std::cos(t)) * turn;
    sum += work;
    paid += std::abs(work);
  }
  CHECK(std::abs(sum) < 1e-6 * paid);
}

TEST_CASE("what is symmetric in the rows is exactly symmetric in the function") {
  CHECK(invented_fit().mirrors == std::vector<Mirror>{Mirror::displacement});
  const CoenergyFunction& w = invented_fit().function;
  CHECK(w.at(2.3e-3, 1.7).force_N == near(-w.at(-2.3e-3, 1.7).force_N, 1e-12));
  CHECK(w.at(2.3e-3, 1.7).linkage_Wb == near(w.at(-2.3e-3, 1.7).linkage_Wb, 1e-12));

  const KnownCoenergy plunger = [](double z, double i) {  // without its magnet
    CoenergyPoint at = invented(z, i);
    const CoenergyPoint back = invented(z, -i);
    at.coenergy_J += back.coenergy_J;
    at.force_N += back.force_N;
    at.linkage_Wb -= back.linkage_Wb;
    return at;
  };
  const CoenergyFit fit = fit_coenergy(rows_of(plunger));
  CHECK(fit.mirrors == std::vector<Mirror>{Mirror::displacement, Mirror::current, Mirror::both});
  CHECK(fit.function.at(2.3e-3, -1.7).force_N == near(fit.function.at(2.3e-3, 1.7).force_N, 1e-12));
}

TEST_CASE("a coil of one inductance has it everywhere: nothing wiggles between the rows") {
  const auto coil = [](double z, double i) {
    CoenergyPoint at{};
    at.coenergy_J = self * i * i / 2 + 2 * z;
    at.force_N = 2;
    at.linkage_Wb = self * i;
    return at;
  };
  const CoenergyFunction w = fit_coenergy(rows_of(coil)).function;
  // what the normal equations lose in rounding: 1e-5, with some room
  for (const double z : {-9.8e-3, 0.1e-3, 6.4e-3})
    for (const double i : {-3.9, -0.1, 1.2}) CHECK(w.at(z, i).inductance_H == near(self, 1e-4));
}

TEST_CASE("nine rows with uneven bars are met") {
  // Of data/devices/01_tube_pusher.toml, a tolerance of 1 %. Most directions of the coefficients are seen by
  // no row: their pivots must not be left to rounding, which made some of them negative.
  const std::vector<CoenergyRow> plain = {
      {0, -6, {-0.9398714, 0.0003521}, {-0.0061975819, 1.85e-06}, -0.0890648121},
      {0, 0, {0.3996882, 0.000651}, {0.0018844104, 3.213e-06}, -0.101981783},
      {0, 6, {1.742879, 0.001166}, {0.0099726566, 3.213e-06}, -0.0663926908},
      {25e-3, -6, {0.0001077274, 0.002511}, {-0.0071874443, 1.85e-06}, -0.0497895442},
      {25e-3, 0, {0.0001145913, 0.002513}, {5.96294e-05, 2.504e-06}, -0.0724193788},
      {25e-3, 6, {0.0001234767, 0.002543}, {0.0081407164, 3.213e-06}, -0.0478370206},
      {50e-3, -6, {0.939863, 0.0002591}, {-0.0061975872, 1.85e-06}, -0.0890765483},
      {50e-3, 0, {-0.3996901, 0.0005672}, {0.0018844166, 3.182e-06}, -0.101993517},
      {50e-3, 6, {-1.742876, 0.001097}, {0.0099726741, 3.182e-06}, -0.066404353}};
  std::mt19937 dice(7);
  std::uniform_int_distribution<int> tenths(-10, 10);
  for (int draw = 0; draw < 300; ++draw) {
    std::vector<CoenergyRow> rows = plain;
    for (CoenergyRow& row : rows) row.force_N.error *= std::pow(10, 0.1 * tenths(dice));
    INFO("draw " << draw);
    CHECK(fit_coenergy(rows).within_bars());
  }
}

TEST_CASE("rows that no energy has are told: a force that a linkage contradicts leaves its bar") {
  std::vector<CoenergyRow> rows = rows_of(invented);
  for (CoenergyRow& row : rows)
    row.force_N.value += 1 * row.current_A;  // dF/di off by 1 N/A, linkage as before
  CHECK_FALSE(fit_coenergy(rows).within_bars());
}

TEST_CASE("lost rows are left out and counted, one current alone is refused") {
  std::vector<CoenergyRow> rows = rows_of(invented);
  rows[100].force_N.value = std::numeric_limits<double>::quiet_NaN();
  const CoenergyFit fit = fit_coenergy(rows);
  CHECK(fit.rows_left_out == 1);
  CHECK(fit.function.at(rows[100].displacement, rows[100].current_A).linkage_Wb ==
        near(rows[100].linkage_Wb.value, 1e-3));
  std::vector<CoenergyRow> alone;
  for (const CoenergyRow& row : rows)
    if (row.current_A == 0) alone.push_back(row);
  CHECK_THROWS_AS(fit_coenergy(alone), std::invalid_argument);
}

}  // namespace coilpull
