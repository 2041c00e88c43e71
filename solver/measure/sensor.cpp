// SPDX-License-Identifier: GPL-3.0-or-later
#include "solver/measure/sensor.hpp"

#include <cmath>

#include "materials/constants.hpp"
#include "solver/fem/quadrature.hpp"

namespace coilpull {

FluxDensity sensor_field(const Field& field, Point at, double face_radius) {
  if (face_radius == 0) return flux_density(field, at);
  if (at.r == 0) return {0, 2 * vector_potential(field, {face_radius, at.z}) / face_radius};
  constexpr int angles = 16;
  const detail::LineRule rule =
      detail::gauss_rule(6);  // in s = (rho / face_radius)^2, whose measure is the area
  FluxDensity mean{0, 0};
  for (Eigen::Index i = 0; i < rule.points.size(); ++i)
    for (int k = 0; k < angles; ++k) {
      const double rho = face_radius * std::sqrt(rule.points[i]), turn = 2 * pi * (k + 0.5) / angles;
      const double x = at.r + rho * std::cos(turn), y = rho * std::sin(turn), r = std::hypot(x, y);
      const FluxDensity b = flux_density(field, {r, at.z});
      mean.r += rule.weights[i] / angles * b.r * x / r;
      mean.z += rule.weights[i] / angles * b.z;
    }
  return mean;
}

}  // namespace coilpull
