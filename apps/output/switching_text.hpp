// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include <string>

#include "apps/advice/switching_advice.hpp"
#include "apps/output/curves_picture.hpp"

namespace coilpull {

// When to switch: words for the screen, windows as rows, and force curves with the windows marked.
std::string switching_text(const SwitchingAdvice& advice);
std::string switching_csv(const SwitchingAdvice& advice);
CurvesPicture switching_picture(const SwitchingAdvice& advice, const DriveTable& drive,
                                const std::string& title);

}  // namespace coilpull
