// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include <string>
#include <vector>

#include "apps/variants/variants_file.hpp"

namespace coilpull {

/// A number of the device that may be anything between two bounds, in the unit of its key.
struct NumberRange {
  std::string path;
  double from, to;
};

/// The { from, to } of [vary] and [hypercube]; turns are no such number.
std::vector<NumberRange> ranges_of(const VariantsFile& file);

}  // namespace coilpull
