// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include <string>

#include "apps/offset/offset_point.hpp"
#include "apps/output/curves_picture.hpp"

namespace coilpull {

/// The point solved in full on the axis, for comparison.
struct OnAxis {
  Measured with_current_N;
  Measured current_part_N;  ///< half of what reversing the current changes
  Measured without_current_N;
  double slope_without_N_per_m;  ///< dF/dz; NaN: not known
};

/// What is known off the axis, how well, and what is not.
std::string offset_text(const Device& device, const OffsetQuestion& question, const OffsetPoint& point,
                        const OnAxis& full);

// Forces and torque of the current on the way out to the place, a row each; both forces drawn.
std::string offset_csv(const OffsetPoint& point);
CurvesPicture offset_picture(const OffsetQuestion& question, const OffsetPoint& point,
                             const std::string& title);

}  // namespace coilpull
