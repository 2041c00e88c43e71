// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include <string>

namespace coilpull::detail {

/// Shortest text that reads back as the same number: 0.1, 2e-05, nan.
std::string number_text(double value);

}  // namespace coilpull::detail
