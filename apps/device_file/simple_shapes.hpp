// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include <string>

#include "apps/device_file/table.hpp"
#include "meshing/outline.hpp"

namespace coilpull {

// The shapes that a table in braces describes, see shapes.hpp. `example` is shown when a key is missing.
// All throw BadDevice.

/// The cylinder (r_from = 0) or tube that fills this box, as its reader draws it.
Outline plain_body(const Box& box);

Outline read_tube(const Table& shape, const std::string& example);
Outline read_cylinder(const Table& shape, const std::string& example);
Outline read_cone(const Table& shape, const std::string& example);
Outline read_ball(const Table& shape, const std::string& example);

}  // namespace coilpull
