// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include <optional>

#include "apps/commands/field.hpp"

namespace coilpull {

struct OffsetOptions {
  PointOptions point;  ///< device file, displacement and currents
  double offset_mm = 0;
  double tilt_deg = 0;
  std::optional<double> pair_distance_mm = {};
};

/// What the current does to the moving magnets off the axis: printed; the way out to that place as
/// offset.csv and offset.png and .svg, unless point.files is false or the place is the axis.
/// @throws BadDevice  also for a device or a place that cannot be asked
ExitCode run_offset(const OffsetOptions& options);

}  // namespace coilpull
