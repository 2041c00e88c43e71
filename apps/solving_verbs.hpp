// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include <CLI/CLI.hpp>

#include "apps/commands/exit_code.hpp"

namespace coilpull {

/// Adds the verbs that read a device and solve it: `check`, `table`, `field`.
void add_solving_verbs(CLI::App& app, ExitCode& code);

}  // namespace coilpull
