// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include <optional>
#include <string>
#include <vector>

#include "apps/motion/stroke_figures.hpp"

namespace coilpull {

/// How long flux takes to enter a solid core, and at which field its law makes it longest.
struct DiffusionTime {
  std::string core;
  double least_s, most_s;  ///< saturated; where the law is steepest
  bool tube;               ///< of which the wall counts
  bool assumed;            ///< resistivity not known: that of plain steel
};

/// mu sigma a^2 / 5.78 (first zero of J0, squared) for a solid core of radius a; for a tube, whose wall
/// b is entered from one side, mu sigma (2 b)^2 / pi^2. mu = dB/dH of the law up to 2 T.
std::vector<DiffusionTime> diffusion_times(const DeviceFile& file);

/// Where the statics of this stroke stop holding, in sentences with figures.
/// @param row_check_part  how far two real stages are from the sum of two, over the peak force; none: not
/// done
std::vector<std::string> stroke_cautions(const DeviceFile& file, const StrokePlan& plan,
                                         const SwitchedRun& run, const StrokeFigures& figures,
                                         const DriveTable& drive,
                                         const std::optional<double>& row_check_part);

}  // namespace coilpull
