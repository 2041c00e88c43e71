// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include <string>

namespace coilpull {

/// Words or a number as a cell of a CSV file: quoted where RFC 4180, section 2, rules 5 to 7, ask for it.
/// What a spreadsheet would take for a formula (it begins with = + - @ or a tab and is no number) gets an
/// apostrophe in front, so that a material called =1+1 is shown and not computed.
std::string csv_cell(const std::string& words);

}  // namespace coilpull
