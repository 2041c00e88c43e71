// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

namespace coilpull {

extern const char* const first_help;  ///< the end of --help: where a newcomer starts

}  // namespace coilpull
