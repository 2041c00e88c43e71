// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include <CLI/CLI.hpp>

#include "apps/commands/exit_code.hpp"

namespace coilpull {

/// Adds the verbs that set choices side by side: `compare`, `remanence`, `wires`.
void add_choosing_verbs(CLI::App& app, ExitCode& code);

}  // namespace coilpull
