// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

namespace coilpull {

/// From here on the first Ctrl-C (SIGINT) or SIGTERM only raises a flag, so that finished rows can be
/// written; a second one ends the program at once with exit code 130.
void watch_for_stop();

bool stop_was_asked();

}  // namespace coilpull
