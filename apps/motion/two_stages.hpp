// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include "apps/advice/advice_runs.hpp"
#include "apps/motion/stroke_plan.hpp"

namespace coilpull {

/// How far two real stages beside each other are from the sum of two single ones.
struct RowCheck {
  double worst_N, bar_N;   ///< the largest difference, and the bars of both there
  double at;               ///< displacement of the first stage [m]
  double first_A, next_A;  ///< currents there
  double part;             ///< of the peak force of one stage
  std::size_t points;      ///< compared
};

/// The device with everything that stands once more at `pitch` along z; circuits of these are called "_next".
Device two_stages(const Device& device, double pitch);

/// Both stages at nine displacements over both, without current and with `current_A` in either.
RowCheck row_check(const DeviceFile& file, const DriveTable& drive, const StrokePlan& plan, double current_A,
                   const SolveChange& solve);

}  // namespace coilpull
