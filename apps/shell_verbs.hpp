// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include <CLI/CLI.hpp>

#include "apps/commands/exit_code.hpp"

namespace coilpull {

/// The verbs by which the program tells shells and manuals its own words. `app` must be all of it, and
/// outlive the parsing.
void add_shell_verbs(CLI::App& app, ExitCode& code);

}  // namespace coilpull
