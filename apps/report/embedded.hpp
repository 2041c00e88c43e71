// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include <string_view>

namespace coilpull {

// Files taken into the program when it is built (embed.cmake): none of them is ours.

extern const std::string_view chart_script;   ///< dygraph.min.js of Debian's libjs-dygraphs
extern const std::string_view chart_style;    ///< its style sheet
extern const std::string_view chart_licence;  ///< its copyright file

}  // namespace coilpull
