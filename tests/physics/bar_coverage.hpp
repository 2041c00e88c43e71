// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

namespace coilpull {

/// Checks the error bars of the random devices of these seeds, each against a far finer mesh: at least 97 %
/// of all rows inside, 90 % of each device's, no miss beyond 3 bars. Prints a histogram.
void judge_bars(unsigned first_seed, unsigned last_seed);

}  // namespace coilpull
