// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include <string>

#include "apps/variants/variants_file.hpp"
#include "tests/apps/scratch_folder.hpp"

namespace coilpull {

/// A plunger of straight steel that its coil draws to its middle: coarse, solved in a second.
inline const char* const stage_words = R"(tolerance = 0.05
[core.plunger]
material = { law = "linear", mu_r = 500 }
cylinder = { radius_mm = 4.5, from_mm = -10, to_mm = 10 }
[coil.pull]
tube  = { inner_radius_mm = 5.5, outer_radius_mm = 12, from_mm = -10, to_mm = 10 }
turns = 300
wire  = { diameter_mm = 0.5 }
[motion]
moving          = ["plunger"]
displacement_mm = { from = -30, to = 30, points = 7 }
[current]
pull_A = [0, 15, 30]
[supply]
voltage_V = 60
current_limit_A = 20
[mechanics]
mass_g = 10
)";

inline VariantsFile file_of(const ScratchFolder& scratch, const std::string& device,
                            const std::string& words) {
  scratch.write("device.toml", device);
  return read_variants_file(scratch.write("many.toml", "device = \"device.toml\"\n" + words));
}

}  // namespace coilpull
