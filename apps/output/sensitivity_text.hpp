// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include <string>

#include "solver/refine/sensitivity.hpp"

namespace coilpull {

/// The ranked list for reading: effect of 0.1 mm or 1 %, largest first; what is below a thousandth of the
/// largest is only counted.
/// @param order  p of the list
std::string sensitivity_text(const SensitivityList& list, int order);

/// All of it as RFC 4180: part, quantity, place, present, unit, per, change_N, change_between_orders_N.
std::string sensitivity_csv(const SensitivityList& list);

}  // namespace coilpull
