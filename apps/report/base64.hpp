// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include <string>

namespace coilpull {

/// RFC 4648, section 4, with padding.
std::string base64(const std::string& bytes);

}  // namespace coilpull
