// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include <CLI/CLI.hpp>

#include "apps/commands/exit_code.hpp"

namespace coilpull {

/// Adds the verbs that hold figures against measured and published ones: `validate`, `judge`, `bench`,
/// `calibrate`.
void add_measuring_verbs(CLI::App& app, ExitCode& code);

}  // namespace coilpull
