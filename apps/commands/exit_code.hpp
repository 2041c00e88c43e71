// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

namespace coilpull {

/// What the program tells the shell.
enum ExitCode : int {
  exit_good = 0,
  exit_our_mistake = 1,  ///< nothing the person did; please report
  exit_wrong_input = 2,  ///< device file, command line
  exit_row_not_ok = 3,   ///< everything is written, some row is not `ok`
  exit_cannot_write = 4,
  exit_stopped = 130  ///< Ctrl-C or SIGTERM; finished rows are written
};

}  // namespace coilpull
