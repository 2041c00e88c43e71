// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include <string>

#include "apps/advice/rating_advice.hpp"
#include "apps/output/curves_picture.hpp"

namespace coilpull {

// What parts have to bear: words for the screen, figures as rows, and the current dying after switching off.
std::string rating_text(const RatingAdvice& advice);
std::string rating_csv(const RatingAdvice& advice);
CurvesPicture rating_picture(const RatingAdvice& advice, const std::string& title);

}  // namespace coilpull
