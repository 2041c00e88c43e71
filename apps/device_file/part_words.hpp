// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include <string>

namespace coilpull {

/// What a Device does not keep of how its file speaks of a part, as TOML values in their canonical form.
struct PartWords {
  std::string material = {};    ///< of cores and magnets
  std::string magnetised = {};  ///< of magnets
};

}  // namespace coilpull
