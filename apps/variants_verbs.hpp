// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include <CLI/CLI.hpp>

#include "apps/commands/exit_code.hpp"

namespace coilpull {

/// Adds the verb `variants`, with its `merge`.
void add_variants(CLI::App& app, ExitCode& code);

}  // namespace coilpull
