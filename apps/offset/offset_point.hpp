// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include <functional>
#include <optional>
#include <string>
#include <vector>

#include "apps/commands/solve.hpp"
#include "solver/measure/offset_force.hpp"

namespace coilpull {

struct OffsetQuestion {
  double displacement;  ///< [m]
  std::vector<double> currents_A;
  double offset = 0;  ///< [m], from the axis, or from half way between the two of a pair
  double tilt = 0;    ///< [rad]
  std::optional<double> pair_distance = {};  ///< [m] between the axes of two equal coils: see pair
};

/// What a field does to the magnets, with what the orders of the solution leave.
struct OffsetAnswer {
  OffsetForce value, bar;
};

/// One of evenly spaced places on the way from no offset and no tilt to those asked for.
struct OffsetStep {
  double offset, tilt;  ///< [m], [rad]
  OffsetAnswer answer;
};

struct OffsetPoint {
  OffsetAnswer on_axis;  ///< by the same way, for comparison
  OffsetAnswer here;
  std::vector<OffsetAnswer> each = {};  ///< of a pair: what the first and the second coil do here
  std::vector<OffsetStep> way = {};     ///< without places where a magnet would run into a part
};

/// Why this device or this place cannot be asked: magnets that do not move, or not only they, or not
/// magnetised along the axis; no coil. Empty: it can.
std::string why_no_offset(const Device& device);

/// Force of the current on the moving magnets off the axis, from the field of coils and cores without them.
/// A pair: two equal devices with parallel axes a distance apart, the magnets on the path half way between
/// them at offset 0; both fields are added as if neither core knew of the other.
/// @param why  set when there is no answer: no mesh, no convergence, a magnet that runs into a part
std::optional<OffsetPoint> offset_point(const Device& device, const OffsetQuestion& question, Mesher& mesher,
                                        std::string& why);

}  // namespace coilpull
