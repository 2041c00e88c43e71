// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include <string>
#include <vector>

#include "apps/advice/sensor_advice.hpp"
#include "apps/output/curves_picture.hpp"

namespace coilpull {

// What a switching sensor does: words for the screen, field against displacement as rows and as a picture.
std::string sensor_text(const SensorAdvice& advice);
std::string sensor_csv(const SensorAdvice& advice);
CurvesPicture sensor_picture(const SensorAdvice& advice, const std::string& title);

}  // namespace coilpull
