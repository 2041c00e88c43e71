// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include <string>
#include <vector>

#include "apps/motion/best_switching.hpp"
#include "apps/motion/stroke_figures.hpp"
#include "apps/motion/two_stages.hpp"
#include "apps/output/canvas.hpp"
#include "apps/output/origin.hpp"

namespace coilpull {

/// The stroke for the screen: what drives it, exit speed, efficiency, peaks, stages, energy account, events.
std::string stroke_text(const StrokePlan& plan, const SwitchedRun& run, const StrokeFigures& figures);

/// What leads and pitch gain over the plain choice.
std::string best_text(const BestSwitching& best, const StrokePlan& plain);

/// How far two real stages are from the sum of two.
std::string row_check_text(const RowCheck& check);

/// One row a step of the integrator: time, position, speed, force, bank, then of each stage current, voltage
/// and temperature.
std::string stroke_csv(const StrokePlan& plan, const SwitchedRun& run);

/// What the columns of stroke_csv are (CSVW), and what the stroke was run with.
/// @param csv  the file that is described, for its hash
std::string stroke_metadata(const StrokePlan& plan, const SwitchedRun& run, const StrokeFigures& figures,
                            const RunOrigin& origin, const std::string& csv_name, const std::string& csv);

/// One row a stage.
std::string stages_csv(const StrokeFigures& figures);

/// Position, speed, current, voltage, force, temperature against time, one above the other.
Canvas draw_stroke(const StrokePlan& plan, const SwitchedRun& run, const std::string& title);

}  // namespace coilpull
