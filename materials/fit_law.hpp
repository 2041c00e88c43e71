// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include <string>
#include <vector>

#include "materials/bh_curve.hpp"
#include "materials/law_from_numbers.hpp"

namespace coilpull {

/// A closed law laid through points.
struct LawFit {
  LawNumbers numbers;  ///< the law as it would be written in a file
  SoftLaw law;
  std::vector<double> residual_T;   ///< (points) B of the law at the point's H, less the point's B
  double rms_T = 0, largest_T = 0;  ///< of the residuals
  bool settled = false;             ///< the search ended because nothing improves any more
};

/// Least squares of B at the given H over the numbers of a law, which are searched by their logarithms so
/// that they stay above 0: Levenberg and Marquardt as in MINPACK, by Eigen's port of it.
/// @param law  "froehlich", "langevin", "arctangent" or "brauer"
/// @throws BadMaterial  for another law, or with fewer points above zero than the law has numbers
LawFit fit_law(const std::string& law, const std::vector<BhCurve::Point>& points);

/// What fit_law can fit.
std::vector<std::string> laws_to_fit();

}  // namespace coilpull
