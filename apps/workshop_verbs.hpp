// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include <CLI/CLI.hpp>

#include "apps/commands/exit_code.hpp"

namespace coilpull {

/// Adds the verbs that hand a device on: `advise`, `drawing`, `offset`, `export`, `report`.
void add_workshop_verbs(CLI::App& app, ExitCode& code);

}  // namespace coilpull
