// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include <CLI/CLI.hpp>

#include "apps/commands/exit_code.hpp"

namespace coilpull {

/// The verb material and its own: list, show, bolt, import. @param code  set when one of them has run
void add_material(CLI::App& app, ExitCode& code);

}  // namespace coilpull
