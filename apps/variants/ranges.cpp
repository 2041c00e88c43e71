// SPDX-License-Identifier: GPL-3.0-or-later
#include "apps/variants/ranges.hpp"

namespace coilpull {
namespace {

bool counts_in_wholes(const std::string& path) {
  const std::string key = path.substr(path.rfind('.') + 1);
  return key == "turns" || key == "points";
}

}  // namespace

std::vector<NumberRange> ranges_of(const VariantsFile& file) {
  std::vector<NumberRange> ranges;
  for (const auto* list : {&file.vary, &file.hypercube})
    for (const Choices& choices : *list)
      if (choices.from < choices.to && !counts_in_wholes(choices.path))
        ranges.push_back({choices.path, choices.from, choices.to});
  return ranges;
}

}  // namespace coilpull
