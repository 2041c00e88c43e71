// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

namespace coilpull {

/// What a row may take of processor time [s] when nothing else is asked for: thousands of times a usual one.
/// Common practice, no source.
inline constexpr double usual_row_limit_s = 600;

}  // namespace coilpull
