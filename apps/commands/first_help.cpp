// SPDX-License-Identifier: GPL-3.0-or-later
#include "apps/commands/first_help.hpp"

namespace coilpull {

const char* const first_help =
    R"(Start here:
  1. Describe the device in a text file. data/devices/01_tube_pusher.toml is one to copy.
  2. coilpull check pusher.toml              reads it, tells what it understood
  3. coilpull table pusher.toml              every displacement and current: force_table.csv
  4. coilpull field pusher.toml --displacement-mm 2 --current drive=4
                                             one point in full

Signs: z runs along the axis; displacement, force and Bz count positive along +z; a positive current runs
counter-clockwise seen from +z. Every force comes with the half width of its numerical error bar.

Exit codes: 0 good, 2 wrong input, 3 some row is not ok, 4 cannot write, 130 stopped.)";

}  // namespace coilpull
