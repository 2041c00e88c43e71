// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include <string>

namespace coilpull {

/// What the last `coilpull validate` of this version found, as it comes with the data; or how to find out.
std::string known_answers_text();

}  // namespace coilpull
