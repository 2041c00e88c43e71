// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include <string>

#include "apps/advice/heat_advice.hpp"
#include "apps/output/curves_picture.hpp"

namespace coilpull {

// Winding and heat: words for the screen, temperature against time as rows and as a picture.
std::string heat_text(const HeatAdvice& advice);
std::string heat_csv(const HeatAdvice& advice);
CurvesPicture heat_picture(const HeatAdvice& advice, const std::string& title);

std::string seconds_words(double seconds);  ///< "12 ms", "3.4 s", "5 min"

}  // namespace coilpull
