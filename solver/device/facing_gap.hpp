// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include <Eigen/Core>
#include <optional>
#include <vector>

#include "solver/device/device.hpp"
#include "solver/device/faces.hpp"

namespace coilpull {

/// The narrowest place between moving and fixed parts, where two faces stand opposite each other.
struct FacingGap {
  int moving, fixed;        ///< faces
  double width;             ///< [m]
  Eigen::Vector2d outward;  ///< unit, from the fixed face into the gap
  bool is_axial() const;
};

/// Empty where corners are nearest, where both faces are arcs, or where nothing moves or nothing is fixed.
std::optional<FacingGap> facing_gap(const Device& device, const std::vector<Region>& parts,
                                    const std::vector<Face>& faces);

}  // namespace coilpull
