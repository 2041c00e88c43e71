// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include <string>

#include "apps/shell_words/command_words.hpp"

namespace coilpull {

// Scripts that complete verbs, options, closed choices and file names in a shell.

std::string bash_completion(const VerbWords& program);
std::string zsh_completion(const VerbWords& program);
std::string fish_completion(const VerbWords& program);

}  // namespace coilpull
