// SPDX-License-Identifier: GPL-3.0-or-later
#include "apps/calibration/coverage.hpp"

#include <boost/math/distributions/chi_squared.hpp>
#include <boost/math/distributions/normal.hpp>
#include <boost/math/distributions/students_t.hpp>

namespace coilpull {
namespace {

double quantile_for(std::size_t parameters) { return 1 - 0.025 / static_cast<double>(parameters); }

}  // namespace

double coverage_factor(std::size_t parameters) {
  return boost::math::quantile(boost::math::normal(), quantile_for(parameters));
}

double coverage_factor(std::size_t parameters, double degrees_of_freedom) {
  return boost::math::quantile(boost::math::students_t(degrees_of_freedom), quantile_for(parameters));
}

double largest_likely_sum(double degrees_of_freedom) {
  return boost::math::quantile(boost::math::chi_squared(degrees_of_freedom), 0.99);
}

}  // namespace coilpull
