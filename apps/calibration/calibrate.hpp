// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include <string>

#include "apps/calibration/estimate.hpp"

namespace coilpull {

struct Calibration {
  Estimate estimate;
  Eigen::VectorXd before, after;  ///< the model at the file's values and at the fitted ones (measured)
  double surface_miss = 0;        ///< largest |surface - model| at the fitted values, in sigma
  int rounds = 0;
  bool settled = false;      ///< the fitted values lie in the sampled range and the surface is right there
  std::string trouble = {};  ///< not empty: the model could not be solved; nothing else is to be used
};

struct CalibrationOptions {
  int most_rounds = 8;
  double reach = 2;           ///< a round goes no further from its centre, in steps
  double good_surface = 0.3;  ///< allowed surface_miss
};

/// Fits parameters of a model to measured numbers: a response surface around the file's values, least squares
/// on it, another surface around what was found, until the model itself agrees with the surface there.
Calibration calibrate(const Model& model, const Eigen::VectorXd& start, const Eigen::VectorXd& step,
                      const MeasuredNumbers& measured, const CalibrationOptions& options = {});

}  // namespace coilpull
