// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include <CLI/CLI.hpp>

#include "apps/commands/exit_code.hpp"

namespace coilpull {

/// Adds the verb that lets the device move: `stroke`.
void add_motion_verbs(CLI::App& app, ExitCode& code);

}  // namespace coilpull
