// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include <Eigen/Core>
#include <stdexcept>
#include <string>

#include "apps/calibration/response_surface.hpp"

namespace coilpull {

/// This build has no library for least squares, or its module cannot be opened; says what to do.
struct NoLeastSquares : std::runtime_error {
  using std::runtime_error::runtime_error;
};

/// The sum over all measured of ((f(u) - measured) / sigma)^2 is to be smallest within |u| <= reach.
struct FitProblem {
  ResponseSurface surface;
  Eigen::VectorXd measured, sigma;  ///< (measured)
  double reach;
};

struct FitResult {
  Eigen::VectorXd u;  ///< (parameters)
  Eigen::MatrixXd
      covariance;        ///< of u, for sigma as given; empty when the measurements leave a direction open
  bool settled = false;  ///< the least squares were found
};

/// What the module coilpull_calibrate offers: it is opened only when something is fitted, since its libraries
/// come on top of all that the program needs. On trouble false and the reason.
using Fit = bool (*)(const FitProblem& problem, FitResult& result, std::string& trouble);
inline constexpr const char* fit_name = "coilpull_fit";

/// Opens the module, once for the whole run. @throws NoLeastSquares
void require_least_squares();

/// @throws NoLeastSquares; std::runtime_error when the library gives up
FitResult fit(const FitProblem& problem);

}  // namespace coilpull
