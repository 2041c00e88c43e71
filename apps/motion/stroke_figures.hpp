// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include <optional>
#include <vector>

#include "apps/motion/stroke_plan.hpp"

namespace coilpull {

/// What one stage did in a stroke.
struct StageFigures {
  std::optional<double> on_s, off_s;                          ///< when it was first switched
  std::optional<double> on_at, off_at;                        ///< the mover's displacement then [m]
  std::optional<double> speed_on_m_per_s, speed_off_m_per_s;  ///< along +z
  double peak_A = 0;                                          ///< with its sign
  double delivered_J = 0, heat_J = 0;                         ///< heat of winding, feed and diode
  double degC = 20;                                           ///< of the winding at the end
};

/// What a stroke comes to.
struct StrokeFigures {
  double speed_m_per_s = 0;                  ///< at the end
  double low_m_per_s = 0, high_m_per_s = 0;  ///< what force bars, and spread where it is known, leave
  double band_J = 0;                         ///< of kinetic energy
  double kinetic_J = 0;
  double fastest_m_per_s = 0;
  double fastest_band_J = 0;  ///< of the kinetic energy there
  double peak_A = 0, peak_V = 0, peak_N = 0, peak_degC = 0;
  double peak_A_s = 0;
  double seconds = 0;
  std::optional<double> efficiency;  ///< kinetic energy gained over energy delivered; none: nothing was
  std::optional<double> of_stored;   ///< kinetic energy gained over what the bank held
  bool moved = false;                ///< farther than a thousandth of the stroke
  std::vector<StageFigures> stages;
};

/// Band: along the path that was run, the bar of the force at each place and current, and of a row with
/// Measurement::spread what the ranges of the input add, all of one sign: its integral over the way is what
/// the kinetic energy may be wrong by. First order: the path itself is kept. With stops that rebound the band
/// counts the whole way run.
StrokeFigures stroke_figures(const StrokePlan& plan, const SwitchedRun& run, const DriveTable& drive,
                             const ForceTable& table);

}  // namespace coilpull
