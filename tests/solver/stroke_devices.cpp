// SPDX-License-Identifier: GPL-3.0-or-later
#include "tests/solver/stroke_devices.hpp"

#include <doctest/doctest.h>

#include <Eigen/QR>
#include <algorithm>
#include <cmath>
#include <vector>

namespace coilpull {

CoenergyFunction fitted(const std::function<CoenergyPoint(double, double)>& device) {
  std::vector<CoenergyRow> rows;
  for (int k = -10; k <= 10; ++k)
    for (int i = -10; i <= 10; ++i) {
      const CoenergyPoint at = device(1e-3 * k, i);
      rows.push_back(
          {1e-3 * k, static_cast<double>(i), {at.force_N, 1e-6}, {at.linkage_Wb, 1e-6}, at.coenergy_J});
    }
  return fit_coenergy(rows).function;
}

Eigen::VectorXd power_on(const SplineAxis& axis, int power) {
  const Eigen::Index n = axis.functions();
  Eigen::MatrixXd values = Eigen::MatrixXd::Zero(4 * n, n);
  Eigen::VectorXd asked(4 * n);
  for (Eigen::Index k = 0; k < 4 * n; ++k) {
    const double x =
        axis.from() + (axis.to() - axis.from()) * static_cast<double>(k) / static_cast<double>(4 * n - 1);
    const SplineAxis::Basis basis = axis.at(x);
    values.block<1, SplineAxis::degree + 1>(k, basis.first) = basis.derivative.row(0).matrix();
    asked(k) = std::pow(x, power);
  }
  return values.householderQr().solve(asked);
}

CoenergyFunction coil() {
  const SplineAxis z({-10e-3, 0, 10e-3}), i({-10, -5, 0, 5, 10});
  return {z, i,
          pull * power_on(z, 1) * power_on(i, 0).transpose() +
              L / 2 * power_on(z, 0) * power_on(i, 2).transpose()};
}

CoenergyFunction magnet_in_coil(double newton_per_ampere) {
  const SplineAxis z({-10e-3, 0, 10e-3}), i({-10, -5, 0, 5, 10});
  return {z, i,
          newton_per_ampere * power_on(z, 1) * power_on(i, 1).transpose() +
              L / 2 * power_on(z, 0) * power_on(i, 2).transpose()};
}

CoenergyFunction plunger() {
  return fitted([](double z, double i) {
    const double s = z / 6e-3, g = std::exp(-s * s), full = 4;
    const double w = full * full * std::log(std::cosh(i / full)), flux = full * std::tanh(i / full);
    return CoenergyPoint{2e-3 * w * (1 + g), 2e-3 * w * g * -2 * s / 6e-3, 2e-3 * flux * (1 + g), 0, 0, 0};
  });
}

double time_of(const SwitchedRun& run, StrokeEvent event) {
  const auto found = std::find_if(run.events.begin(), run.events.end(),
                                  [&](const StrokeEventAt& e) { return e.event == event; });
  REQUIRE_MESSAGE(found != run.events.end(), word_for(event));
  return found->time_s;
}

}  // namespace coilpull
