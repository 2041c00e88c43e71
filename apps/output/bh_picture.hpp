// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include <optional>
#include <string>
#include <vector>

#include "apps/output/curves_picture.hpp"
#include "solver/device/device.hpp"

namespace coilpull {

/// B against H of every soft material of the device, the points of its table as dots.
/// Nothing when no core has a curved law.
std::optional<CurvesPicture> bh_picture(const Device& device);

/// A soft material to be drawn by itself.
struct DrawnLaw {
  std::string name;
  SoftLaw law;
  std::vector<BhCurve::Point> points = {};  ///< shown as dots
  std::optional<double> known_to_T = {};    ///< above it the curve is dashed: a tail nobody measured
};

/// B against H, from weak fields to far beyond saturation.
CurvesPicture law_picture(const std::string& title, const std::vector<DrawnLaw>& laws);

/// Relative permeability B / (mu0 H) against B.
CurvesPicture permeability_picture(const std::string& title, const std::vector<DrawnLaw>& laws);

/// "Froehlich", "table", ...
std::string kind_of(const SoftLaw& law);

}  // namespace coilpull
