// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include <string>

#include "apps/bench/bench_sheet.hpp"

namespace coilpull {

/// What meter, probe and scale should read, how to read them, and the cautions.
std::string bench_text(const BenchSheet& sheet, const Device& device);

/// bench_sheet.csv: quantity, of, where, unit, value, bar. An empty bar: a formula with no bar of its own.
std::string bench_csv(const BenchSheet& sheet, const Device& device);

}  // namespace coilpull
