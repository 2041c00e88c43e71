// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include <optional>

#include "solver/refine/sensitivity.hpp"

namespace coilpull {

/// What the force becomes, to first order, when a device is changed into another: the sum of slope times
/// change over every dimension of tubes and cylinders and every magnet's remanence and recoil permeability.
/// Laws of cores, turns, currents and background are taken to be the same. [N]
/// Nothing where the slopes do not tell it: other parts or faces, another outline that is no tube or
/// cylinder, touching faces that part, a magnet turned.
/// @param list  of the first device  @param displacement  of the list [m]
std::optional<double> first_order_change(const SensitivityList& list, const Device& from, const Device& to,
                                         double displacement);

}  // namespace coilpull
