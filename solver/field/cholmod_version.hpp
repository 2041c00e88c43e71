// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include <string>

namespace coilpull {

/// Of the library that is running, "3.0.14".
std::string cholmod_version();

}  // namespace coilpull
