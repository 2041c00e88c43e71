// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include "apps/motion/stroke_plan.hpp"

namespace coilpull {

/// The plan with the leads and the pitch that bring the highest speed at the end.
struct BestSwitching {
  StrokePlan plan;
  double on_lead, off_lead;  ///< against the plain choice, positive: earlier [m]
  double plain_m_per_s, best_m_per_s;
  int runs;
};

struct BestOptions {
  double most_lead = 0.02;                 ///< either way [m]
  double least_pitch = 0, most_pitch = 0;  ///< equal: the pitch stays [m]
  int global_runs = 120, local_runs = 120;
};

/// Leads up to a quarter of the stroke either way; of a row the pitch too, from half to one and a half of
/// what was chosen, the standing parts apart.
BestOptions best_options(const StrokePlan& plan, const DriveTable& drive);

/// Division of rectangles over the whole range (DIRECT-L: Gablonsky and Kelley, J. Global Optim. 21 (2001)
/// 27), then Subplex from its best or from the plain choice, whichever is better (T. Rowan, thesis, Univ. of
/// Texas 1990), both as NLopt has them. A mover that does not leave counts by how far it comes. What it finds
/// is the best of what was tried.
/// @throws BadDevice  a plan that is not switched by displacement
BestSwitching best_switching(const DeviceFile& file, const StrokePlan& plan, const CoenergyFunction& function,
                             const BestOptions& options);

}  // namespace coilpull
