// SPDX-License-Identifier: GPL-3.0-or-later
#include "solver/closed_form/detail/gauss_points.hpp"

#include <boost/math/quadrature/gauss.hpp>

namespace coilpull::detail {

namespace {
GaussPoints both_halves() {
  using Half = boost::math::quadrature::gauss<double, 10>;  // the positive points
  GaussPoints all{};
  for (std::size_t i = 0; i < 5; ++i) {
    all.at[i] = -Half::abscissa()[i];
    all.at[i + 5] = Half::abscissa()[i];
    all.weight[i] = all.weight[i + 5] = Half::weights()[i];
  }
  return all;
}
}  // namespace

const GaussPoints& gauss_points() {
  static const GaussPoints points = both_halves();
  return points;
}

}  // namespace coilpull::detail
