// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include <optional>
#include <string>

#include "materials/magnet_material.hpp"
#include "materials/soft_material.hpp"

namespace coilpull {

/// What a Device does not keep of how its file speaks of a part, as TOML values in their canonical form.
struct PartWords {
  std::string material = {};                 ///< of cores and magnets
  std::string magnetised = {};               ///< of magnets
  double stacking_factor = 1;                ///< of cores
  std::optional<SoftMaterial> steel = {};    ///< of cores, when it comes from a file
  std::optional<MagnetMaterial> grade = {};  ///< of magnets, when it comes from a file
};

}  // namespace coilpull
