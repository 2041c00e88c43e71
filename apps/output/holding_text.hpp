// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include <string>

#include "apps/advice/holding_advice.hpp"
#include "apps/output/curves_picture.hpp"

namespace coilpull {

// Does it move, does it hold: words for the screen, a row a displacement, and the least current against it.
std::string holding_text(const HoldingAdvice& advice);
std::string holding_csv(const HoldingAdvice& advice);
CurvesPicture holding_picture(const HoldingAdvice& advice, const std::string& title);

// The force left over at each displacement, likewise.
std::string margin_text(const HoldingAdvice& advice);
std::string margin_csv(const HoldingAdvice& advice);
CurvesPicture margin_picture(const HoldingAdvice& advice, const std::string& title);

}  // namespace coilpull
