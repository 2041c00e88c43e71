// SPDX-License-Identifier: GPL-3.0-or-later
#include "solver/closed_form/displaced_loops.hpp"

#include <boost/math/quadrature/trapezoidal.hpp>
#include <cmath>

#include "materials/constants.hpp"

namespace coilpull {

double displaced_mutual_inductance(const Loop& first, const Loop& second, double offset) {
  const double b = second.radius;
  const auto along_wire = [&](double t) {
    const double rho = std::hypot(offset + b * std::cos(t), b * std::sin(t));
    if (rho == 0) return 0.0;  // A_phi vanishes like rho, and dl stands across it
    return vector_potential(first, 1, {rho, second.z}) * b * (b + offset * std::cos(t)) / rho;
  };
  return 2 * boost::math::quadrature::trapezoidal(along_wire, 0.0, pi, 1e-12, 14);
}

}  // namespace coilpull
