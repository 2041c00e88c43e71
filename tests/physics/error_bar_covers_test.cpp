// SPDX-License-Identifier: GPL-3.0-or-later
#include <doctest/doctest.h>

#include "tests/physics/bar_coverage.hpp"

TEST_CASE("the truth lies inside the error bars of four random devices") { coilpull::judge_bars(301, 304); }
