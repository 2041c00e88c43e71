// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include <string>

namespace coilpull {

/// Version of Gmsh's interface that the mesher was built with, "4.8.0" for every 4.8.x.
std::string mesh_generator_version();

}  // namespace coilpull
