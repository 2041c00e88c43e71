// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include <string>
#include <vector>

#include "apps/validation/check.hpp"

namespace coilpull {

struct PageStamp {
  std::string date, version;
  bool complete;  ///< false: only the quick families were run
};

/// Today (UTC) and this program.
PageStamp page_made_now(bool complete);

/// One self-contained page: totals, pictures, a line a source, what is explained or differs, every value of
/// every source, what is not recomputed, and apart from all these the values from memory, without a verdict.
std::string validation_page(const std::vector<Check>& checks, const PageStamp& stamp);

}  // namespace coilpull
