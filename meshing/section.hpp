// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include <string>
#include <vector>

#include "meshing/outline.hpp"
#include "meshing/size_field.hpp"

namespace coilpull {

/// A named outline.
struct Region {
  std::string name;
  Outline outline;
};

/// The half circle that ends the mesh, centred on the axis.
struct HalfCircle {
  double centre_z;  ///< [m]
  double radius;    ///< [m]
};

/// Geometry of one displacement: parts, the half circle around them, wanted sizes. No steel, no current.
/// Parts may share edges and corners, never area. What no part covers inside the half circle is air.
struct Section {
  std::vector<Region> parts;
  HalfCircle outer;
  SizeField sizes;
};

/// Name of the region that no part covers.
inline constexpr const char* air_name = "air";

}  // namespace coilpull
