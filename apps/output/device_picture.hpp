// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include <optional>

#include "apps/output/section_view.hpp"

namespace coilpull {

/// The device as a dimensioned section: parts with their names, z and r in mm, the sense of a positive
/// current (dot: towards the reader, cross: away), the direction of magnetisation, sensors. Moving parts
/// stand where the displacement is nearest to 0; the ends of the stroke are dashed.
/// @param points_per_metre  as large as fits a screen when not given
Canvas draw_device(const Device& device, Halves halves = Halves::both,
                   std::optional<double> points_per_metre = std::nullopt);

}  // namespace coilpull
