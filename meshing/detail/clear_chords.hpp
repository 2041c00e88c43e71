// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include <vector>

#include "meshing/detail/planar_map.hpp"

namespace coilpull::detail {

/// Adds cuts to arcs until no chord crosses, or comes nearer than six times its own height (sagitta) to,
/// another curve's chords: a triangle of that height keeps a positive map when its side is bent to the arc,
/// which moves the side by less than a quarter of the height. stops[c]: the inner cuts of curve c, rising t
/// in ]0, 1[.
void clear_chords(const PlanarMap& map, std::vector<std::vector<double>>& stops);

}  // namespace coilpull::detail
