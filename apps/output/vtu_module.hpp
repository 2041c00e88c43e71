// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include <string>

#include "apps/output/vtu_cells.hpp"

namespace coilpull {

/// What the module coilpull_vtu offers. It is opened only when such a file is asked for, since its libraries
/// take longer to load than all else in the program; program and module come from one build. Gives the whole
/// .vtu file; on trouble false and the reason.
using MakeVtu = bool (*)(const VtuCells& cells, std::string& text);
inline constexpr const char* make_vtu_name = "coilpull_make_vtu";

}  // namespace coilpull
