// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include <string>

namespace coilpull {

std::string program_version();  ///< "0.1.0"

}  // namespace coilpull
