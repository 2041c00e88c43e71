// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include <string>

#include "apps/shell_words/command_words.hpp"

namespace coilpull {

/// coilpull(1) in mdoc: every verb with its operands, options and help, files, exit codes.
std::string manual_page(const VerbWords& program);

}  // namespace coilpull
