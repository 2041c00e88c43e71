// SPDX-License-Identifier: GPL-3.0-or-later
#include "apps/calibration/fit_module.hpp"

#include "apps/modules/open_module.hpp"

namespace coilpull {
namespace {

Fit module() {
  static const Fit opened = [] {
    try {
      return reinterpret_cast<Fit>(symbol_of_module(
          {"Ceres", "coilpull_calibrate.so", COILPULL_BUILT_CALIBRATE, COILPULL_INSTALLED_CALIBRATE},
          fit_name));
    } catch (const NoModule& missing) {
      throw NoLeastSquares(std::string(missing.what()) +
                           " In the source tree: bash apps/install_packages calibrate, then build again.");
    }
  }();
  return opened;
}

}  // namespace

void require_least_squares() { module(); }

FitResult fit(const FitProblem& problem) {
  FitResult result;
  std::string trouble;
  if (!module()(problem, result, trouble)) throw std::runtime_error("the fit failed: " + trouble);
  return result;
}

}  // namespace coilpull
