// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include <string>
#include <vector>

namespace coilpull {

/// Numbers under a header line, RFC 4180 with CRLF; "NaN" for what is not finite.
/// @param rows  each with as many numbers as the header has names
std::string csv_rows(const std::string& header, const std::vector<std::vector<double>>& rows);

}  // namespace coilpull
