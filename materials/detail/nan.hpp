// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include <limits>

namespace coilpull {

inline constexpr double nan = std::numeric_limits<double>::quiet_NaN();  ///< where there is no number

}  // namespace coilpull
