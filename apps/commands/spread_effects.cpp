// SPDX-License-Identifier: GPL-3.0-or-later
#include "apps/commands/spread_effects.hpp"

#include <iostream>

#include "apps/commands/solve.hpp"
#include "apps/commands/stop_signal.hpp"
#include "apps/spread/input_ranges.hpp"

namespace coilpull {

std::vector<InputEffect> effects_of(const DeviceFile& file, const ForceTable& table, int threads,
                                    ProgressStyle style) {
  SolveChoice choice{threads};
  choice.meshes = table.meshes;
  std::vector<InputEffect> effects;
  for (const InputRange& range : input_ranges(file)) {
    if (stop_was_asked()) break;
    if (style != ProgressStyle::silent) std::cerr << range.words << "\n";
    effects.push_back({range.words, {}});
    for (const Device& end : range.ends) effects.back().ends.push_back(solve(end, file, choice, style));
  }
  return effects;
}

}  // namespace coilpull
