// SPDX-License-Identifier: GPL-3.0-or-later
#include "meshing/check_section.hpp"

#include "meshing/detail/planar_map.hpp"

namespace coilpull {

void check_section(const Section& section) { detail::planar_map(section); }

}  // namespace coilpull
