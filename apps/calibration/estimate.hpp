// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include <Eigen/Core>
#include <cstddef>
#include <vector>

#include "apps/calibration/response_surface.hpp"

namespace coilpull {

/// All measured numbers, in SI units.
struct MeasuredNumbers {
  Eigen::VectorXd value;
  Eigen::VectorXd sigma;            ///< standard uncertainty; NaN where it is to be told from the residuals
  std::vector<std::size_t> column;  ///< numbers of one column share an unknown noise
};

/// Two parameters that the measurements hardly tell apart, or not at all.
struct Confusion {
  std::size_t first, second;
  double correlation;  ///< -1 to 1; +-1: only one combination of them is told
};

struct Estimate {
  Eigen::VectorXd value;        ///< of the parameters
  Eigen::VectorXd half_width;   ///< holds all of them together with 95 %; NaN: the measurements leave it open
  Eigen::MatrixXd correlation;  ///< empty when a direction is left open
  std::vector<Confusion> confused;          ///< |correlation| above 0.95, or an open direction
  std::vector<std::size_t> without_effect;  ///< change none of the measured numbers
  Eigen::VectorXd sigma;                    ///< used: of measurement and model together
  bool noise_estimated;                     ///< some sigma was told from the residuals
  double misfit;                            ///< rms of residual / sigma, per degree of freedom
  double widened =
      1;              ///< by how much half_width was widened because the misfit is larger than noise makes it
  Eigen::VectorXd u;  ///< where on the surface
  bool settled = false;  ///< the least squares were found
};

/// Least squares of the measured numbers on the surface, within `reach` steps of its centre. The model's bar
/// counts as a 95 % interval, half of it as standard uncertainty. A misfit that noise makes once in a hundred
/// times widens the intervals by itself (Birge, Phys. Rev. 40 (1932) 207; citation from memory). Needs more
/// numbers than parameters, two more where noise is to be estimated.
Estimate estimate(const ResponseSurface& surface, const MeasuredNumbers& measured, double reach);

}  // namespace coilpull
