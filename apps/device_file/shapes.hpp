// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include "apps/device_file/table.hpp"
#include "meshing/outline.hpp"

namespace coilpull {

/// The section of a part, and the key it was read from.
struct Shape {
  Outline outline;
  Value value;
};

/// The one shape of a part: tube or cylinder.
/// @throws BadDevice  when there is none or more than one, or its numbers describe no body
Shape read_shape(const Table& part);

}  // namespace coilpull
