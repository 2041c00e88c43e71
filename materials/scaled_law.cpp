// SPDX-License-Identifier: GPL-3.0-or-later
#include "materials/scaled_law.hpp"

#include <vector>

#include "materials/constants.hpp"

namespace coilpull {
namespace {

using Scaled = std::optional<SoftLaw>;

/// dJ/dH / mu0 at H = 0.
template <class Law>
double initial_susceptibility(const Law& law) {
  return 1 / (mu0 * law.dh_db(0)) - 1;
}

struct Scale {
  double factor;

  Scaled operator()(const LinearLaw& law) const { return SoftLaw{LinearLaw{1 + factor * (law.mu_r - 1)}}; }
  Scaled operator()(const FroehlichLaw& law) const {
    return SoftLaw{FroehlichLaw{factor * law.saturation_polarization(), law.half_field()}};
  }
  Scaled operator()(const LangevinLaw& law) const {
    const double shape_field = law.saturation_polarization() / (3 * mu0 * initial_susceptibility(law));
    return SoftLaw{LangevinLaw{factor * law.saturation_polarization(), shape_field}};
  }
  Scaled operator()(const ArctangentLaw& law) const {
    const double saturation = factor * law.saturation_polarization();
    return SoftLaw{ArctangentLaw{saturation, factor * initial_susceptibility(law)}};
  }
  Scaled operator()(const BrauerLaw&) const { return std::nullopt; }
  Scaled operator()(const BhCurve& law) const {
    std::vector<BhCurve::Point> points = law.points();
    for (BhCurve::Point& point : points) {
      const double of_air = mu0 * point.h_A_per_m;
      point.b_T = of_air + factor * (point.b_T - of_air);
    }
    std::optional<double> initial = law.initial_permeability();
    if (initial) initial = 1 + factor * (*initial - 1);
    // full at its last point, as some tables end: the law finds that again, and takes no saturation beyond it
    std::optional<double> saturation = factor * law.saturation_polarization();
    if (*saturation <= points.back().b_T - mu0 * points.back().h_A_per_m) saturation.reset();
    return SoftLaw{BhCurve(points, saturation, initial)};
  }
};

}  // namespace

std::optional<SoftLaw> with_polarization(const SoftLaw& law, double factor) {
  return std::visit(Scale{factor}, law);
}

}  // namespace coilpull
