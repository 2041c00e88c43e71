// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include <string>

#include "apps/calibration/calibrate.hpp"
#include "apps/calibration/measured_model.hpp"

namespace coilpull {

/// What was fitted to what, how sure it is, what cannot be told apart and what would tell it, and how well it
/// fits.
std::string calibration_text(const Calibration& made, const MeasuredModel& model, const MeasuredFile& file,
                             const Device& device);

/// calibration.csv: a row a parameter. "NaN": the measurements leave it open.
std::string calibration_csv(const Calibration& made, const MeasuredModel& model);

/// calibration_points.csv: a row a measured number, with the model before and after.
std::string calibration_points_csv(const Calibration& made, const MeasuredModel& model,
                                   const MeasuredFile& file);

}  // namespace coilpull
